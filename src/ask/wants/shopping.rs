//! `shopping`: what is to be bought for several sets, as one list.

use super::places::set_name;
use super::{ShoppingAnswer, ShoppingQuestion};
use crate::ask::sheet::shopping::Basket;
use crate::ask::{ErrorAnswer, SheetPurchase, sheet};
use crate::book::Book;
use crate::caution::LICENSED_PRACTICE;
use crate::finding::{Caution, Mark, Verdict};

/// Answers `shopping`.
pub fn shopping(book: &Book, question: &ShoppingQuestion) -> Result<ShoppingAnswer, ErrorAnswer> {
    let mut basket = Basket::default();
    let (mut open, mut cautions) = (Vec::new(), Vec::<Caution>::new());
    let several = question.sheets.len() > 1;
    for (at, job) in question.sheets.iter().enumerate() {
        let set = if several { format!("{},", set_name(job, at)) } else { String::new() };
        let (lines, warned) = sheet::bought(book, job, &set, &mut basket);
        open.extend(lines);
        for caution in warned {
            if !cautions.iter().any(|known| known.topic == caution.topic) {
                cautions.push(caution);
            }
        }
    }
    // The rules come last, as on one sheet.
    if cautions.contains(&LICENSED_PRACTICE) {
        cautions.retain(|caution| *caution != LICENSED_PRACTICE);
        cautions.push(LICENSED_PRACTICE);
    }
    let shopping = basket.counted(book);
    Ok(ShoppingAnswer { verdict: verdict(&shopping, open.len(), question.sheets.len()), shopping, open, cautions })
}

fn verdict(shopping: &[SheetPurchase], open: usize, sets: usize) -> Verdict {
    let count: usize = shopping.iter().map(|row| row.count).sum();
    // What lies in stock may be wanted twice; no more of it is counted than is to be bought.
    let held: usize = shopping.iter().map(|row| row.in_stock.min(row.count)).sum();
    let some = |count: usize, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    let word = if count == 0 { "Nothing to buy.".to_owned() } else { format!("{} to buy.", some(count, "piece")) };
    let mut said = vec![format!("For {}", some(sets, "set"))];
    if held > 0 {
        said.push(format!("{held} of the pieces in stock"));
    }
    if open > 0 {
        said.push(format!(
            "{} to look at before anything is bought for {}",
            some(open, "line"),
            if open == 1 { "it" } else { "them" }
        ));
    }
    Verdict { mark: if open > 0 { Mark::Care } else { Mark::Yes }, word, says: format!("{}.", said.join("; ")) }
}
