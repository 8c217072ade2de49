//! Laws of the want list and the table, over sheets put together at random from the book.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::*;
use crate::ask::sheet::socket::Sockets;
use crate::ask::swap::{self, ServesQuestion, SwapQuestion};
use crate::ask::{SheetHeaters, SheetTube, SocketQuestion, TubeState};
use crate::book::Book;

static BOOK: LazyLock<Book> = LazyLock::new(Book::shipped);

/// Types of one heater current go into a string together; others are thrown together.
fn pool(kind: usize) -> Vec<&'static str> {
    let amps = [Some(0.15), Some(0.3), Some(0.05), None][kind % 4];
    let fits = |a: Option<f64>| amps.is_none() || a == amps;
    BOOK.tubes().iter().filter(|tube| fits(tube.figures.heater_a)).map(|tube| tube.name.as_str()).collect()
}

fn sheet((kind, heaters, tubes): (usize, usize, Vec<(usize, usize)>)) -> JobSheet {
    let pool = pool(kind);
    let tube = |(at, &(which, state)): (usize, &(usize, usize))| SheetTube {
        r#type: pool[which % pool.len()].to_owned(),
        place: Some(format!("V{at}")),
        state: [None, Some(TubeState::Good), Some(TubeState::Weak), Some(TubeState::Dead), Some(TubeState::Missing)]
            [state],
        ..SheetTube::default()
    };
    JobSheet {
        heaters: [None, Some(SheetHeaters::Series), Some(SheetHeaters::Parallel), Some(SheetHeaters::Battery)][heaters],
        tubes: tubes.iter().enumerate().map(tube).collect(),
        ..JobSheet::default()
    }
}

/// Few types over several sets, so that some are wanted more than once.
fn sheets() -> impl Strategy<Value = Vec<JobSheet>> {
    let tubes = proptest::collection::vec((0usize..12, 0usize..5), 1..6);
    let one = (0usize..4, 0usize..4, tubes, 0usize..800);
    proptest::collection::vec(one, 1..4).prop_map(|sets| {
        let first = sets.first().map_or(0, |set| set.3);
        let moved =
            |tubes: Vec<(usize, usize)>| tubes.into_iter().map(|(which, state)| (which + first, state)).collect();
        // Told apart by their names, as the places of an answer are.
        let named = |(at, (kind, heaters, tubes, _))| JobSheet {
            name: format!("set {at}"),
            ..sheet((kind, heaters, moved(tubes)))
        };
        sets.into_iter().enumerate().map(named).collect()
    })
}

/// Every socket that wants something: "set, V2", the type it wants, what is told of it.
fn sockets(sheets: &[JobSheet]) -> Vec<(String, String, bool, SocketQuestion)> {
    let of = |(at, sheet): (usize, &JobSheet)| {
        let told = Sockets::of(&BOOK, sheet);
        let tubes = sheet.tubes.iter().enumerate();
        let rows: Vec<_> = tubes
            .map(|(line, tube)| {
                let wanted = !matches!(tube.state, None | Some(TubeState::Good));
                let name = format!("{}, {}", places::set_name(sheet, at), tube.place.as_deref().unwrap_or_default());
                (name, tube.r#type.clone(), wanted, told.socket(line))
            })
            .collect();
        rows
    };
    sheets.iter().enumerate().flat_map(of).collect()
}

fn grade(original: &str, candidate: &str, socket: &SocketQuestion) -> Grade {
    let question =
        SwapQuestion { original: original.to_owned(), candidate: candidate.to_owned(), socket: Some(socket.clone()) };
    swap::answer(&BOOK, &question).map_or(Grade::Unknown, |answer| answer.grade)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// A marking that is listed under a grade is judged no worse by `swap` in every socket that wants it, or in those that are named.
    #[test]
    fn what_is_to_be_taken_is_as_good_as_is_said(sheets in sheets(), held in proptest::collection::vec(0usize..4000, 0..30)) {
        let names: Vec<&str> = BOOK.names().iter().map(|name| name.name.as_str()).collect();
        let rows: Vec<String> = held.iter().map(|at| format!("\"{}\",2,drawer", names[at % names.len()])).collect();
        let mut book = BOOK.clone();
        book.load("stock", &format!("marking,count,place\n{}\n", rows.join("\n")));
        let answer = wants(&book, &WantsQuestion { sheets: sheets.clone() });
        let sockets = sockets(&sheets);
        let wanted: Vec<_> = sockets.iter().filter(|row| row.2).collect();
        prop_assert_eq!(answer.wants.iter().map(|want| want.count).sum::<usize>(), wanted.len());
        for want in &answer.wants {
            let own: Vec<_> = wanted.iter().filter(|row| row.1 == want.r#type).collect();
            prop_assert_eq!(own.iter().map(|row| row.0.clone()).collect::<Vec<_>>(), want.places.clone());
            let mut last = None;
            for taken in &want.take {
                prop_assert!(last < Some(taken.grade) && taken.grade <= Grade::AfterChanges, "{want:?}");
                last = Some(taken.grade);
                for marking in &taken.markings {
                    let worst = own.iter().map(|row| grade(&row.1, marking, &row.3)).max();
                    prop_assert_eq!(worst, Some(taken.grade), "{} for {}", marking, want.r#type);
                }
            }
            prop_assert!(want.take.first().is_some_and(|taken| taken.markings.first() == Some(&want.r#type)));
            let there = |only: &[String]| -> Vec<_> {
                own.iter().filter(|row| only.is_empty() || only.contains(&row.0)).collect()
            };
            for only in &want.only {
                prop_assert!(!only.places.is_empty() && only.places.len() < want.count, "{only:?}");
                for marking in &only.markings {
                    let worst = there(&only.places).iter().map(|row| grade(&row.1, marking, &row.3)).max();
                    prop_assert!(worst <= Some(only.grade) && only.grade <= Grade::AfterChanges, "{marking}: {only:?}");
                }
            }
            for held in &want.in_stock {
                let worst = there(&held.only).iter().map(|row| grade(&row.1, &held.marking, &row.3)).max();
                prop_assert_eq!(worst, Some(held.grade), "{:?}", held);
            }
        }
    }

    /// What is said of a type on the table is what `swap` and `serves` say of it, socket by socket.
    #[test]
    fn the_table_says_what_the_swap_says(sheets in sheets(), typed in proptest::collection::vec(0usize..2000, 1..4)) {
        let types: Vec<&str> = typed.iter().map(|at| BOOK.tubes()[at % BOOK.tubes().len()].name.as_str()).collect();
        // One that is surely of use beside those that hardly are.
        let text = format!("{}\n{}", types.join(", "), sheets[0].tubes[0].r#type);
        let answer = on_the_table(&BOOK, &OnTheTableQuestion { text, sheets: sheets.clone() });
        let sockets = sockets(&sheets);
        for find in &answer.found {
            let graded: Vec<(Grade, bool)> =
                sockets.iter().map(|row| (grade(&row.1, &find.r#type, &row.3), row.2)).collect();
            let most = |wanted: bool| if wanted { Grade::AfterChanges } else { Grade::AsIsDifferent };
            let fit = graded.iter().filter(|row| row.0 <= most(row.1)).count();
            prop_assert_eq!(find.serves.len() + find.more, fit, "{:?}", find);
            let best = graded.iter().filter(|row| row.1).map(|row| row.0).min().unwrap_or(Grade::No);
            prop_assert_eq!(find.word.starts_with("Take it"), best <= Grade::AsIsDifferent, "{:?}", find);
            prop_assert_eq!(find.word == "Only after changes.", best == Grade::AfterChanges, "{:?}", find);
            prop_assert_eq!(find.mark == Mark::No, fit == 0 && !graded.contains(&(Grade::Unknown, true)), "{:?}", find);
            for serves in &find.serves {
                let name = places::in_set(&serves.sheet, &serves.place);
                let socket = sockets.iter().find(|row| {
                    row.0 == name && row.1 == serves.wants && grade(&row.1, &find.r#type, &row.3) == serves.grade
                });
                let Some((_, original, wanted, socket)) = socket else {
                    return Err(TestCaseError::fail(format!("no such socket: {serves:?}")));
                };
                prop_assert_eq!(*wanted, serves.wanted);
                let question = ServesQuestion {
                    candidate: find.r#type.clone(),
                    wanted: Some(vec![original.clone()]),
                    socket: Some(socket.clone()),
                    least_grade: None,
                    limit: None,
                };
                let told = swap::serves(&BOOK, &question).unwrap();
                prop_assert_eq!(told.ranked.first().map(|row| row.grade), Some(serves.grade));
            }
            let order: Vec<(bool, Grade)> = find.serves.iter().map(|row| (!row.wanted, row.grade)).collect();
            prop_assert!(order.is_sorted(), "{order:?}");
        }
        let takes = answer.found.iter().any(|find| find.word.starts_with("Take it"));
        prop_assert_eq!(answer.verdict.word.starts_with("Take "), takes, "{:?}", answer.verdict);
    }
}
