//! Sorting for lists of a few dozen entries.
//!
//! The standard library's sort is made for millions and is compiled anew for every kind of entry; here a few hundred bytes do, which
//! a phone downloads once instead of a dozen times.

/// Puts a short list in the order of `key`; equal ones stay as they were. Insertion sort, meant for lists of at most a few hundred.
pub fn sort_few<T, K: Ord>(items: &mut [T], key: impl Fn(&T) -> K) {
    for at in 1..items.len() {
        let mut place = at;
        while place > 0 && key(&items[place - 1]) > key(&items[place]) {
            items.swap(place - 1, place);
            place -= 1;
        }
    }
}

/// Places of a long list in the order of their keys, lowest first; of equal keys the lower place. The one sort of long lists.
pub fn in_order(mut keyed: Vec<(u64, u32)>) -> impl Iterator<Item = usize> {
    keyed.sort_unstable();
    keyed.into_iter().map(|(_, place)| place as usize)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn sorts_as_the_standard_library_does(mut items in proptest::collection::vec((0u8..9, any::<u8>()), 0..40)) {
            let mut wanted = items.clone();
            wanted.sort_by_key(|item| item.0);
            super::sort_few(&mut items, |item| item.0);
            prop_assert_eq!(items, wanted);
        }
    }
}
