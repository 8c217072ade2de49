//! What is to be bought, like with like: counted, under headings in a fixed order, small values before large ones.

use super::SheetPurchase;
use crate::ask::held::Held;
use crate::book::Book;

/// Headings of the list, in the order of a parts drawer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::ask) enum Group {
    Tubes,
    Safety,
    Electrolytics,
    Film,
    MicaAndCeramic,
    Resistors,
    RectifierAndFuse,
}

impl Group {
    fn words(self) -> &'static str {
        match self {
            Self::Tubes => "Tubes",
            Self::Safety => "Safety capacitors",
            Self::Electrolytics => "Electrolytics",
            Self::Film => "Film capacitors",
            Self::MicaAndCeramic => "Mica and ceramic capacitors",
            Self::Resistors => "Resistors",
            Self::RectifierAndFuse => "Rectifier and fuse",
        }
    }
}

/// Something to buy.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::ask) struct Article {
    pub group: Group,
    /// How to ask for it; what is asked for in the same words is the same.
    pub shop: String,
    /// What is printed on a new one.
    pub code: String,
    /// What it is put in order by within its group: farads, ohms.
    pub size: f64,
    /// Rated volts or watts at the least; infinite where no part in stock is known to do.
    pub rating: f64,
}

impl Article {
    /// An article as it is asked for; what is printed on a new one stands behind "marked" or "bands".
    pub fn new(group: Group, shop: &str, size: f64) -> Self {
        let (shop, code) = shop.split_once(", marked ").or_else(|| shop.split_once(", bands ")).unwrap_or((shop, ""));
        Self { group, shop: shop.to_owned(), code: code.to_owned(), size, rating: f64::INFINITY }
    }

    /// The same, of which it is known what it has to bear.
    pub fn rated(self, rating: f64) -> Self {
        Self { rating, ..self }
    }
}

/// A shopping list that is being filled.
#[derive(Debug, Default)]
pub(in crate::ask) struct Basket {
    rows: Vec<(Article, SheetPurchase)>,
}

impl Basket {
    /// Puts so many of an article in, for one place.
    pub fn add(&mut self, article: &Article, count: usize, place: &str) {
        let known = self.rows.iter_mut().find(|row| row.0.group == article.group && row.0.shop == article.shop);
        if let Some((_, row)) = known {
            row.count += count;
            if row.places.last().is_none_or(|last| last != place) {
                row.places.push(place.to_owned());
            }
            return;
        }
        let row = SheetPurchase {
            group: article.group.words().to_owned(),
            shop: article.shop.clone(),
            code: article.code.clone(),
            count,
            places: vec![place.to_owned()],
            in_stock: 0,
        };
        self.rows.push((article.clone(), row));
    }

    /// The list, heading by heading, with what of it lies in stock.
    pub fn counted(mut self, book: &Book) -> Vec<SheetPurchase> {
        if !self.rows.is_empty() && !book.stock().is_empty() {
            let held = Held::of(book);
            for (article, row) in &mut self.rows {
                row.in_stock = held.count(article);
            }
        }
        self.into_list()
    }

    /// The list, heading by heading.
    pub fn into_list(mut self) -> Vec<SheetPurchase> {
        // Farads and ohms are positive, and then their bits are in their order.
        let key = |article: &Article| (article.group, article.size.max(0.0).to_bits());
        crate::order::sort_few(&mut self.rows, |row| key(&row.0));
        self.rows.into_iter().map(|row| row.1).collect()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn article((group, size): (usize, u8)) -> Article {
        let group = [Group::Tubes, Group::Film, Group::Resistors][group % 3];
        Article::new(group, &format!("{group:?} {size}"), f64::from(size))
    }

    proptest! {
        /// Nothing is lost, like stands with like, and the headings come in their order.
        #[test]
        fn all_is_counted_once(bought in proptest::collection::vec(((0usize..3, 0u8..4), 1usize..4), 0..40)) {
            let mut basket = Basket::default();
            for (at, (what, count)) in bought.iter().enumerate() {
                basket.add(&article(*what), *count, &at.to_string());
            }
            let list = basket.into_list();
            prop_assert_eq!(list.iter().map(|row| row.count).sum::<usize>(), bought.iter().map(|row| row.1).sum::<usize>());
            prop_assert_eq!(list.iter().map(|row| row.places.len()).sum::<usize>(), bought.len());
            let keys: Vec<_> = list.iter().map(|row| {
                let article = bought.iter().map(|row| article(row.0)).find(|article| article.shop == row.shop).unwrap();
                (article.group, article.size as u8)
            }).collect();
            prop_assert!(keys.windows(2).all(|pair| pair[0] < pair[1]), "{:?}", keys);
        }
    }

    #[test]
    fn two_for_one_place_name_it_once() {
        let mut basket = Basket::default();
        let film = article((1, 22));
        basket.add(&film, 1, "C4");
        basket.add(&film, 1, "C4");
        basket.add(&film, 1, "C5");
        let list = basket.into_list();
        assert_eq!((list[0].count, list[0].places.join(" ")), (3, "C4 C5".to_owned()));
    }
}
