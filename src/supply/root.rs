//! One root of a function of one variable inside a bracket.

/// The root of `of` between `low` and `high`, where it has opposite signs (or is zero at one end), by regula falsi with
/// the Illinois rule. Ends when |of| is below `small` or after `most` evaluations; never leaves the bracket.
pub(super) fn root(of: &dyn Fn(f64) -> f64, low: f64, high: f64, small: f64, most: u32) -> f64 {
    let (mut a, mut b) = (low, high);
    let (mut at_a, mut at_b) = (of(a), of(b));
    let mut kept = 0;
    for _ in 0..most {
        if at_a.abs() <= small {
            return a;
        }
        if at_b.abs() <= small || at_a == at_b {
            return b;
        }
        let middle = (a * at_b - b * at_a) / (at_b - at_a);
        let middle = if middle > a.min(b) && middle < a.max(b) { middle } else { 0.5 * (a + b) };
        let at_middle = of(middle);
        if (at_middle > 0.0) == (at_b > 0.0) {
            // The same end stays a second time: halve its weight, or it would stay for ever.
            if kept == 1 {
                at_a *= 0.5;
            }
            (b, at_b, kept) = (middle, at_middle, 1);
        } else {
            if kept == 2 {
                at_b *= 0.5;
            }
            (a, at_a, kept) = (middle, at_middle, 2);
        }
    }
    if at_a.abs() < at_b.abs() { a } else { b }
}

#[cfg(test)]
mod tests {
    use super::root;

    #[test]
    fn finds_the_root_of_a_bent_curve() {
        let found = root(&|x: f64| x.exp() - 20.0, 0.0, 10.0, 1e-12, 60);
        assert!((found - 20.0_f64.ln()).abs() < 1e-12, "{found}");
        assert_eq!(root(&|x: f64| 3.0 - x, 3.0, 9.0, 1e-12, 60), 3.0);
    }
}
