use super::*;

/// A value the table accepts.
fn sample(is: &Is) -> Value {
    match is {
        Is::Text(_) | Is::Long(_) => "12SK7".into(),
        Is::Number(least, most, _) => (least.max(1.0)).min(*most).into(),
        Is::Picofarads(..) => "22 n".into(),
        Is::Whole(least, _) => (*least).into(),
        Is::Flag => true.into(),
        Is::OneOf(words) => words.first().copied().unwrap_or("").into(),
        Is::Texts(_) => vec!["12SK7"].into(),
        Is::Pins => vec![1].into(),
        Is::Record(fields) | Is::Draft(fields) => record(fields, None),
        Is::Records(fields) => vec![record(fields, None)].into(),
        Is::Kinds(kinds) => kinds.first().map_or(Value::Null, |(kind, fields)| record(fields, Some(("kind", kind)))),
    }
}

fn record(fields: &[Field], tag: Option<(&str, &str)>) -> Value {
    let mut map: Map<String, Value> = fields.iter().map(|field| (field.name.to_owned(), sample(&field.is))).collect();
    if let Some((name, word)) = tag {
        map.insert(name.to_owned(), word.into());
    }
    Value::Object(map)
}

/// Every field the table accepts changes what is read: none is let through and then forgotten. Every word of a choice is told from the others.
#[test]
fn every_field_of_the_table_arrives() {
    for (kind, fields) in QUESTIONS {
        let whole = record(fields, Some(("ask", kind)));
        arrives(&whole, fields, &mut |changed| changed);
    }
}

/// Reads `whole` with each field left out or changed, put into a question by `wrap`, and finds another question each time.
fn arrives(whole: &Value, fields: &[Field], wrap: &mut dyn FnMut(Value) -> Value) {
    let mut shown = |value: Value| {
        let text = wrap(value).to_string();
        format!("{:?}", read(&text).unwrap_or_else(|error| panic!("{}: {text}", error.says)))
    };
    let before = shown(whole.clone());
    for field in fields {
        let mut without = whole.clone();
        if field.needed {
            without[field.name] = match field.is {
                Is::Text(_) | Is::Long(_) => "6V6".into(),
                Is::Records(_) => Value::Array(Vec::new()),
                // What is in it is changed further down.
                Is::Record(_) => continue,
                Is::Number(least, ..) => (least + 0.25).into(),
                Is::OneOf(words) => words[1].into(),
                _ => vec!["6V6"].into(),
            };
        } else {
            without.as_object_mut().unwrap().remove(field.name);
        }
        assert_ne!(shown(without), before, "`{}` is forgotten", field.name);
        if let Is::OneOf(words) = field.is {
            let mut seen = std::collections::BTreeSet::new();
            for word in words {
                let mut one = whole.clone();
                one[field.name] = (*word).into();
                assert!(seen.insert(shown(one)), "`{}`: {word} is not told from another", field.name);
            }
        }
    }
    for field in fields {
        match field.is {
            Is::Records(inner) => arrives(&whole[field.name][0].clone(), inner, &mut |value| {
                let mut outer = whole.clone();
                outer[field.name] = vec![value].into();
                wrap(outer)
            }),
            Is::Record(inner) | Is::Draft(inner) => arrives(&whole[field.name].clone(), inner, &mut |value| {
                let mut outer = whole.clone();
                outer[field.name] = value;
                wrap(outer)
            }),
            Is::Kinds(kinds) => {
                for (word, inner) in kinds {
                    arrives(&record(inner, Some(("kind", word))), inner, &mut |value| {
                        let mut outer = whole.clone();
                        outer[field.name] = value;
                        wrap(outer)
                    });
                }
            }
            _ => {}
        }
    }
}

/// And the other way round: every field of the generated declarations is in the table.
#[test]
fn every_field_of_the_types_is_in_the_table() {
    let declared = crate::ask::declarations::text();
    for (kind, fields) in QUESTIONS {
        let name: String = kind.split('_').map(|part| part[..1].to_uppercase() + &part[1..]).collect();
        let start = declared.find(&format!("export type {name}Question = {{")).expect("the question is declared");
        let body = &declared[start..start + declared[start..].find("};").unwrap_or(0)];
        // Field names stand at the start of a line, before `:` or `?:`.
        for line in body.lines().skip(1) {
            let line = line.trim();
            let Some((field, _)) = line.split_once(':') else { continue };
            let field = field.trim_end_matches('?').trim_matches('"');
            if !field.is_empty() && field.chars().all(|c| c.is_ascii_lowercase() || c == '_') {
                assert!(fields.iter().any(|row| row.name == field), "{kind}: `{field}` is not in the table");
            }
        }
    }
}

/// Bare figures are picofarads; everything else says its unit.
#[test]
fn a_capacitance_is_read_as_a_meter_shows_it() {
    for (typed, pf) in [
        ("250", Some(250.0)),
        ("22 n", Some(22e3)),
        ("0,02 uF", Some(20e3)),
        (".02 mfd", Some(20e3)),
        ("47 mfd", Some(47e6)),
        ("47 MF", Some(47e6)),
        ("1.5\u{b5}", Some(1.5e6)),
        ("250 mmf", Some(250.0)),
        ("330p", Some(330.0)),
        ("4n7", Some(4700.0)),
        ("lots", None),
        ("n", None),
        ("-5", None),
    ] {
        assert_eq!(picofarads(&typed.into()), pf, "{typed}");
    }
    assert_eq!(picofarads(&250.into()), Some(250.0));
    assert_eq!(picofarads(&true.into()), None);
    let error = read(r#"{"ask":"capacitor","marking":".02","measured_pf":"lots"}"#).unwrap_err();
    insta::assert_snapshot!(error.says, @r#"`measured_pf` is "lots"; accepted: 250 pF, 22 n, 0.02 uF or bare picofarads, from 0.01 to 1000000000000 pF."#);
}

#[test]
fn trouble_is_said_with_field_found_and_accepted() {
    let trouble = |question: &str| match read(question) {
        Err(error) => error.says,
        Ok(question) => panic!("accepted: {question:?}"),
    };
    insta::assert_snapshot!(trouble("tubes?"), @"This question cannot be read: found no JSON (expected ident at line 1 column 2); accepted: one JSON object with the field `ask`.");
    insta::assert_snapshot!(trouble("[1]"), @"This question cannot be read: found a list of 1; accepted: one JSON object with the field `ask`.");
    insta::assert_snapshot!(trouble("{}"), @"`ask` is missing; accepted: tube | row | own | search | swap | candidates | serves | line_up | heater_string | rectifier | capacitor | resistor | colour_code | parts_list | sheet | sheet_lines | sheet_file | wants | on_the_table | shopping | stock.");
    insta::assert_snapshot!(trouble(r#"{"ask":"weather"}"#), @r#"`ask` is "weather"; accepted: tube | row | own | search | swap | candidates | serves | line_up | heater_string | rectifier | capacitor | resistor | colour_code | parts_list | sheet | sheet_lines | sheet_file | wants | on_the_table | shopping | stock."#);
    insta::assert_snapshot!(trouble(r#"{"ask":"swap","original":"6V6"}"#), @"`candidate` is missing; accepted: text: a tube designation, such as 12SK7.");
    insta::assert_snapshot!(trouble(r#"{"ask":"swap","original":"6V6","candidate":6}"#), @"`candidate` is 6; accepted: text: a tube designation, such as 12SK7.");
    insta::assert_snapshot!(trouble(r#"{"ask":"tube","type":"6V6","tpye":""}"#), @"`tpye` is not a field here; accepted: the fields type.");
    insta::assert_snapshot!(trouble(r#"{"ask":"swap","original":"6V6","candidate":"6V6GT","socket":{"supply":{"kind":"series","amps":"lots"}}}"#), @r#"`socket.supply.amps` is "lots"; accepted: a number of amperes from 0.02 to 3."#);
    insta::assert_snapshot!(trouble(r#"{"ask":"rectifier","first_filter_uf":40,"load_ma":-5}"#), @"`load_ma` is -5; accepted: a number of milliamps from 1 to 500.");
    insta::assert_snapshot!(trouble(r#"{"ask":"heater_string","tubes":["12SK7",7]}"#), @"`tubes[1]` is 7; accepted: text.");
}
