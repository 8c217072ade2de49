//! A record that is brought from elsewhere: what can be taken of it, and of everything else which field, what was found, what is accepted.

use serde_json::{Map, Value};

use super::table::SHEET;
use super::{Field, Is, LONGEST_LIST, accepts, check, found, shortened, within};
use crate::ask::ErrorAnswer;

/// A sheet with what can be taken of it; what cannot is a fault and left out.
pub fn mended_sheet(path: &str, sheet: Value, faults: &mut Vec<ErrorAnswer>) -> Option<Value> {
    mended(path, sheet, &Is::Record(SHEET), faults)
}

/// What can be taken of a value.
fn mended(path: &str, value: Value, is: &Is, faults: &mut Vec<ErrorAnswer>) -> Option<Value> {
    match (is, value) {
        (Is::Record(accepted), Value::Object(fields)) => mended_fields(path, fields, accepted, true, &[], faults),
        (Is::Draft(accepted), Value::Object(fields)) => mended_fields(path, fields, accepted, false, &[], faults),
        (Is::Kinds(kinds), Value::Object(fields)) => {
            let kind = fields.get("kind").and_then(Value::as_str).unwrap_or_default();
            if let Some((_, accepted)) = kinds.iter().find(|row| row.0 == kind) {
                return mended_fields(path, fields, accepted, true, &["kind"], faults);
            }
            faults.extend(check(path, &Value::Object(fields), is).err());
            None
        }
        (Is::Records(accepted), Value::Array(all)) => {
            if all.len() > LONGEST_LIST {
                let found = format!("a list of {}", all.len());
                faults.push(ErrorAnswer::new(path, found, format!("a list of at most {LONGEST_LIST}")));
            }
            let rows = all.into_iter().enumerate().take(LONGEST_LIST);
            let kept =
                rows.filter_map(|(at, row)| mended(&format!("{path}[{at}]"), row, &Is::Record(accepted), faults));
            Some(Value::Array(kept.collect()))
        }
        (Is::Texts(_), Value::Array(all)) => {
            let mut kept = Vec::new();
            for (at, item) in all.into_iter().enumerate() {
                if item.is_string() && kept.len() < LONGEST_LIST {
                    kept.push(item);
                } else {
                    faults.push(ErrorAnswer::new(format!("{path}[{at}]"), found(&item), "text"));
                }
            }
            Some(Value::Array(kept))
        }
        (is, value) => match check(path, &value, is) {
            Ok(()) => Some(value),
            Err(fault) => {
                faults.push(fault);
                None
            }
        },
    }
}

fn mended_fields(
    path: &str,
    fields: Map<String, Value>,
    accepted: &[Field],
    whole: bool,
    tags: &[&str],
    faults: &mut Vec<ErrorAnswer>,
) -> Option<Value> {
    let mut kept = Map::new();
    for (name, value) in fields {
        let field = accepted.iter().find(|field| field.name == name);
        if tags.contains(&name.as_str()) {
            kept.insert(name, value);
        } else if let Some(field) = field {
            if !value.is_null() {
                let value = mended(&within(path, field.name), value, &field.is, faults);
                kept.extend(value.map(|value| (name, value)));
            }
        } else {
            let known: Vec<&str> = accepted.iter().map(|field| field.name).collect();
            let known = format!("the fields {}", known.join(", "));
            faults.push(ErrorAnswer::new(within(path, &shortened(&name)), "not a field here", known));
        }
    }
    // A line without its text is kept blank; a list that is missing is an empty one. A figure cannot be blank.
    for field in accepted.iter().filter(|field| whole && field.needed) {
        if !kept.contains_key(field.name) {
            let blank = match field.is {
                Is::Text(_) => Value::from(""),
                Is::Records(_) => Value::Array(Vec::new()),
                _ => {
                    faults.push(ErrorAnswer::new(path, format!("no {}", field.name), accepts(&field.is)));
                    return None;
                }
            };
            let at = within(path, field.name);
            if !faults.iter().any(|fault| fault.field == at) {
                faults.push(ErrorAnswer::new(at, "", accepts(&field.is)));
            }
            kept.insert(field.name.to_owned(), blank);
        }
    }
    Some(Value::Object(kept))
}
