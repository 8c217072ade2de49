//! A marking cut into pieces.

use crate::quantity::plain;

/// One piece of a marking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Token {
    /// Letters, figures, full stops and the bar of a common fraction, without a gap: `4n7k`, `400v`, `1/2w`, `m.f.d.`
    Text(String),
    /// Anything else that is not a gap.
    Sign(char),
}

/// Part of a [`Token::Text`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Piece {
    /// Figures, with their point or bar: `400`, `.05`, `1/2`.
    Figure(String),
    /// Letters, without their full stops: `mfd`, `v`.
    Word(String),
}

/// Fractions written on parts; any other `a/b` is two figures.
const FRACTIONS: [&str; 9] = ["1/2", "1/3", "2/3", "1/4", "3/4", "1/5", "1/8", "1/10", "1/16"];

/// Longer than any marking.
const LONGEST: usize = 200;

/// Whether a comma belongs to figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Comma {
    /// It does, as in `10,000 ohms`; the number reader decides how.
    InFigures,
    /// It parts figures, as in `450, 450, 25 V`; only after a lone 0 it is a decimal point.
    BetweenFigures,
}

/// Cuts a marking into pieces; `None` when it is longer than any marking.
pub(super) fn tokens(marking: &str, comma: Comma) -> Option<Vec<Token>> {
    if marking.len() > LONGEST {
        return None;
    }
    let letters: Vec<char> = plain(marking).chars().collect();
    let at = |index: usize| letters.get(index).copied().unwrap_or(' ');
    let mut tokens = Vec::new();
    let mut text = String::new();
    let mut index = 0;
    while index < letters.len() {
        let letter = at(index);
        let next_is_digit = at(index + 1).is_ascii_digit();
        let fraction = FRACTIONS.iter().find(|fraction| {
            let end = index + fraction.len();
            text.is_empty()
                && fraction.chars().eq(letters.iter().skip(index).take(fraction.len()).copied())
                && !at(end).is_ascii_digit()
                && at(end) != '.'
        });
        if let Some(fraction) = fraction {
            text.push_str(fraction);
            index += fraction.len();
            continue;
        }
        let of_text = match letter {
            ',' if next_is_digit => match comma {
                Comma::InFigures => !text.is_empty(),
                Comma::BetweenFigures => text == "0",
            },
            '.' => true,
            other => other.is_alphanumeric(),
        };
        if of_text {
            let point = letter == ',' && comma == Comma::BetweenFigures;
            text.push(if point { '.' } else { letter });
        } else {
            if !text.is_empty() {
                tokens.push(Token::Text(std::mem::take(&mut text)));
            }
            if !letter.is_whitespace() {
                tokens.push(Token::Sign(letter));
            }
        }
        index += 1;
    }
    if !text.is_empty() {
        tokens.push(Token::Text(text));
    }
    Some(tokens)
}

/// Cuts a text where figures and letters meet.
pub(super) fn pieces(text: &str) -> Vec<Piece> {
    let letters: Vec<char> = text.chars().collect();
    let mut pieces: Vec<Piece> = Vec::new();
    for (index, letter) in letters.iter().copied().enumerate() {
        let next_is_digit = letters.get(index + 1).is_some_and(char::is_ascii_digit);
        let of_figure = match letter {
            '.' | ',' | '/' => next_is_digit || matches!(pieces.last(), Some(Piece::Figure(_))),
            other => other.is_ascii_digit(),
        };
        match (of_figure, pieces.last_mut()) {
            (true, Some(Piece::Figure(figure))) => figure.push(letter),
            (true, _) => pieces.push(Piece::Figure(letter.to_string())),
            (false, Some(Piece::Word(word))) => word.push(letter),
            (false, _) => pieces.push(Piece::Word(letter.to_string())),
        }
    }
    for piece in &mut pieces {
        if let Piece::Word(word) = piece {
            word.retain(|letter| letter != '.');
        }
    }
    pieces.retain(|piece| *piece != Piece::Word(String::new()));
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(text: &str) -> Token {
        Token::Text(text.to_owned())
    }

    #[test]
    fn markings_are_cut() {
        let cut = |marking| tokens(marking, Comma::BetweenFigures).unwrap_or_default();
        assert_eq!(cut(".02 MFD 400v"), [text(".02"), text("mfd"), text("400v")]);
        assert_eq!(cut("20-20/150"), [text("20"), Token::Sign('-'), text("20"), Token::Sign('/'), text("150")]);
        assert_eq!(cut("1/2 mfd"), [text("1/2"), text("mfd")]);
        assert_eq!(cut("450, 25 V"), [text("450"), Token::Sign(','), text("25"), text("v")]);
        assert_eq!(cut("0,05 \u{b5}F"), [text("0.05"), text("uf")]);
        assert_eq!(cut(&"8".repeat(500)), []);
        assert_eq!(tokens("10,000", Comma::InFigures), Some(vec![text("10,000")]));
    }

    #[test]
    fn texts_are_cut() {
        let figure = |text: &str| Piece::Figure(text.to_owned());
        let word = |text: &str| Piece::Word(text.to_owned());
        assert_eq!(pieces("16uf450v"), [figure("16"), word("uf"), figure("450"), word("v")]);
        assert_eq!(pieces("m.f.d."), [word("mfd")]);
        assert_eq!(pieces("1/2w"), [figure("1/2"), word("w")]);
        assert_eq!(pieces("..."), []);
    }
}
