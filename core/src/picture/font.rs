//! How wide text is, without a font: the advance widths of the one family that screen and paper use.
//!
//! Never shapes text: no kerning, no ligatures. What is measured here is never narrower than what a
//! browser draws with kerning on, by more than a hair.

/// Weight of text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// Running text.
    #[default]
    Regular,
    /// Identities and headings.
    Bold,
}

/// Height of a capital letter, as a share of the font size.
pub const CAP_HEIGHT: f64 = 0.66;
/// How far letters reach over the base line, as a share of the font size.
pub const ASCENT: f64 = 0.75;
/// How far letters reach under the base line, as a share of the font size.
pub const DESCENT: f64 = 0.22;
/// Millimetres to a point of type: 1/72 in.
pub const MM_PER_POINT: f64 = 25.4 / 72.0;

/// Width of a text set at one millimetre of font size; multiply by the size. Signs the font lacks
/// count as wide as its widest usual letter.
pub fn width(text: &str, weight: Weight) -> f64 {
    text.chars().map(|sign| advance(sign, weight)).sum()
}

/// The longest beginning of a text that is no wider than `room` at this size, closed with an
/// ellipsis where something was left out. Empty where not even that fits.
pub fn shorten(text: &str, weight: Weight, size: f64, room: f64) -> String {
    if width(text, weight) * size <= room {
        return text.to_string();
    }
    let mut left = room - width("…", weight) * size;
    if left < 0.0 {
        return String::new();
    }
    let mut kept = String::new();
    for sign in text.chars() {
        left -= advance(sign, weight) * size;
        if left < 0.0 {
            break;
        }
        kept.push(sign);
    }
    format!("{}…", kept.trim_end())
}

/// What follows a figure as its unit.
const UNITS: [&str; 6] = ["in", "ft", "mm", "m", "pulg", "pies"];

/// Breaks a text into lines no wider than `room` at this size, at spaces; a word wider than that is
/// broken where it must be, and nothing is left out. An empty text has no lines.
pub fn wrap(text: &str, weight: Weight, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let fits = |words: &str| width(words, weight) * size <= room;
    for words in kept_together(text) {
        let whole = words.join(" ");
        let joined = lines.last().map(|line| format!("{line} {whole}"));
        match (joined, lines.last_mut()) {
            (Some(joined), Some(line)) if fits(&joined) => *line = joined,
            _ if fits(&whole) => lines.push(whole),
            _ => {
                let words = words.into_iter();
                lines.extend(words.flat_map(|word| broken(word, weight, size, room)));
            }
        }
    }
    lines
}

/// The words of a text, those of one dimension together: a foot with its inches, a figure with its unit.
fn kept_together(text: &str) -> Vec<Vec<&str>> {
    let mut kept: Vec<Vec<&str>> = Vec::new();
    for word in text.split_whitespace() {
        match kept.last_mut() {
            Some(words) if words.last().is_some_and(|last| is_one(last, word)) => words.push(word),
            _ => kept.push(vec![word]),
        }
    }
    kept
}

/// Whether two words are one dimension: `9'` and `2-3/4"`, `5/8` and `in`.
fn is_one(first: &str, next: &str) -> bool {
    let figure = |words: &str| words.ends_with(|sign: char| sign.is_ascii_digit());
    let next = next.trim_end_matches([',', '.', ';', ':', ')']);
    match first.strip_suffix('\'') {
        Some(feet) => figure(feet) && next.ends_with('"'),
        None => figure(first) && UNITS.contains(&next),
    }
}

/// A word in pieces no wider than `room`, each of one sign at least.
fn broken(word: &str, weight: Weight, size: f64, room: f64) -> Vec<String> {
    let mut pieces = vec![String::new()];
    let mut left = room;
    for sign in word.chars() {
        let wide = advance(sign, weight) * size;
        if wide > left && pieces.last().is_some_and(|piece| !piece.is_empty()) {
            pieces.push(String::new());
            left = room;
        }
        left -= wide;
        if let Some(piece) = pieces.last_mut() {
            piece.push(sign);
        }
    }
    pieces
}

/// Whether the font can draw a sign.
pub fn has(sign: char) -> bool {
    known(sign, Weight::Regular).is_some()
}

/// Advance of one sign in ems.
fn advance(sign: char, weight: Weight) -> f64 {
    f64::from(known(sign, weight).unwrap_or(WIDEST)) / 1000.0
}

fn known(sign: char, weight: Weight) -> Option<u16> {
    let code = u32::from(sign);
    let after = RUNS.partition_point(|run| run.first <= code);
    let run = RUNS.get(after.checked_sub(1)?)?;
    let widths = match weight {
        Weight::Regular => run.regular,
        Weight::Bold => run.bold,
    };
    let place = usize::try_from(code - run.first).ok()?;
    widths.get(place).copied().filter(|width| *width != N)
}

/// What a sign the font lacks counts for.
const WIDEST: u16 = 900;
/// A sign inside a run that the font lacks.
const N: u16 = u16::MAX;

/// Widths in thousandths of an em, from `first` on.
struct Run {
    first: u32,
    regular: &'static [u16],
    bold: &'static [u16],
}

const RUNS: &[Run] = &[
    Run {
        first: 0x0020,
        regular: &[
            200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497,
            497, 497, 497, 497, 497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 544,
            588, 571, 615, 527, 494, 617, 652, 263, 480, 579, 486, 727, 647, 664, 566, 664, 569,
            534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456,
            555, 496, 292, 504, 544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419, 338,
            544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
        ],
        bold: &[
            200, 340, 537, 528, 528, 857, 667, 300, 344, 344, 457, 528, 300, 332, 300, 339, 528,
            528, 528, 528, 528, 528, 528, 528, 528, 528, 300, 300, 528, 528, 528, 463, 902, 573,
            605, 582, 635, 548, 524, 638, 674, 301, 509, 614, 518, 762, 665, 684, 596, 684, 613,
            556, 556, 665, 556, 813, 567, 525, 541, 344, 339, 344, 528, 500, 555, 527, 573, 467,
            573, 518, 341, 534, 571, 276, 278, 548, 286, 857, 572, 555, 573, 573, 398, 443, 383,
            568, 523, 776, 514, 521, 460, 344, 268, 344, 528,
        ],
    },
    Run {
        first: 0x00A0,
        regular: &[
            200, 289, 497, 497, 497, 497, 241, 497, 542, 744, 345, 429, 497, 311, 423, 542, 331,
            497, 367, 367, 542, 562, 560, 249, 542, 367, 365, 429, 781, 808, 796, 425, 544, 544,
            544, 544, 544, 544, 822, 571, 527, 527, 527, 527, 263, 263, 263, 263, 639, 647, 664,
            664, 664, 664, 664, 497, 664, 645, 645, 645, 645, 476, 583, 576, 504, 504, 504, 504,
            504, 504, 778, 456, 496, 496, 496, 496, 246, 246, 246, 246, 544, 547, 542, 542, 542,
            542, 542, 497, 542, 544, 544, 544, 544, 467, 555, 467, 544, 504, 544, 504, 544, 504,
            571, 456, 571, 456, 571, 456, 571, 456, 615, 573, 635, 562, 527, 496, 527, 496, 527,
            496, 527, 496, 527, 496, 617, 504, 617, 504, 617, 504, 617, 504, 652, 544, 692, 557,
            263, 246, 263, 246, 263, 246, 263, 246, 263, 246, 526, 493, 480, 247, 579, 495, 495,
            486, 255, 486, 255, 486, 265, 486, 362, 500, 298, 647, 547, 647, 547, 647, 547, 769,
            635, 547, 664, 542, 664, 542, 664, 542, 847, 839, 569, 347, 569, 347, 569, 347, 534,
            419, 534, 419, 534, 419, 534, 419, 536, 338, 536, 338, 536, 338, 645, 544, 645, 544,
            645, 544, 645, 544, 645, 544, 645, 544, 786, 718, 476, 467, 476, 539, 425, 539, 425,
            539, 425, 271,
        ],
        bold: &[
            200, 340, 528, 528, 528, 528, 268, 528, 555, 750, 359, 480, 528, 332, 462, 555, 365,
            528, 376, 376, 555, 594, 636, 300, 555, 376, 373, 480, 809, 846, 818, 463, 573, 573,
            573, 573, 573, 573, 845, 582, 548, 548, 548, 548, 301, 301, 301, 301, 657, 665, 684,
            684, 684, 684, 684, 528, 684, 665, 665, 665, 665, 525, 617, 632, 527, 527, 527, 527,
            527, 527, 781, 467, 518, 518, 518, 518, 276, 276, 276, 276, 558, 572, 555, 555, 555,
            555, 555, 528, 555, 568, 568, 568, 568, 521, 573, 521, 573, 527, 573, 527, 573, 527,
            582, 467, 582, 467, 582, 467, 582, 467, 635, 614, 655, 573, 548, 518, 548, 518, 548,
            518, 548, 518, 548, 518, 638, 534, 638, 534, 638, 534, 638, 534, 674, 571, 714, 575,
            301, 276, 301, 276, 301, 276, 301, 276, 301, 276, 602, 554, 509, 278, 614, 548, 548,
            518, 286, 518, 286, 518, 318, 518, 453, 543, 359, 665, 572, 665, 572, 665, 572, 850,
            666, 572, 684, 555, 684, 555, 684, 555, 871, 822, 613, 398, 613, 398, 613, 398, 556,
            443, 556, 443, 556, 443, 556, 443, 556, 383, 556, 383, 556, 383, 665, 568, 665, 568,
            665, 568, 665, 568, 665, 568, 665, 568, 813, 776, 525, 521, 525, 541, 460, 541, 460,
            541, 460, 313,
        ],
    },
    Run {
        first: 0x018F,
        regular: &[648, N, N, 292],
        bold: &[665, N, N, 341],
    },
    Run {
        first: 0x0218,
        regular: &[534, 419, 536, 338],
        bold: &[556, 443, 556, 383],
    },
    Run {
        first: 0x02BB,
        regular: &[257, 257, 257],
        bold: &[302, 302, 302],
    },
    Run {
        first: 0x02C6,
        regular: &[
            542, 542, 187, 277, 225, 225, 114, N, N, N, 249, 249, 242, 242, 367, 367, 367, 367,
            542, 542, 542, 542, 542, 542,
        ],
        bold: &[
            555, 555, 211, 308, 236, 236, 147, N, N, N, 300, 300, 269, 269, 376, 376, 376, 376,
            555, 555, 555, 555, 555, 555,
        ],
    },
    Run {
        first: 0x0300,
        regular: &[0, 0, 0, 0, 0, N, N, N, 0, N, 0, 0, 0],
        bold: &[0, 0, 0, 0, 0, N, N, N, 0, N, 0, 0, 0],
    },
    Run {
        first: 0x0327,
        regular: &[0, 0],
        bold: &[0, 0],
    },
    Run {
        first: 0x0374,
        regular: &[
            249, 249, N, N, N, N, 542, N, N, N, 249, N, N, N, N, N, 542, 542, 573, 249, 611, 736,
            347, N, 741, N, 604, 745, 262, 544, 588, 498, 588, 527, 539, 652, 664, 263, 579, 515,
            727, 647, 533, 664, 645, 566, N, 538, 536, 476, 719, 513, 699, 678, 263, 476, 560, 448,
            541, 262, 510, 560, 565, 484, 531, 448, 424, 541, 522, 262, 494, 494, 562, 474, 431,
            535, 586, 549, 432, 546, 458, 510, 680, 481, 689, 701, 262, 510, 535, 510, 701, 585,
        ],
        bold: &[
            300, 300, N, N, N, N, 555, N, N, N, 300, N, N, N, N, N, 555, 555, 639, 300, 687, 812,
            440, N, 807, N, 712, 824, 301, 573, 605, 521, 640, 548, 541, 674, 684, 301, 614, 556,
            762, 665, 571, 684, 663, 596, N, 549, 556, 525, 760, 567, 752, 711, 301, 525, 595, 471,
            562, 301, 532, 595, 600, 533, 548, 471, 466, 562, 549, 301, 546, 552, 594, 523, 469,
            553, 635, 569, 446, 573, 488, 532, 738, 526, 752, 746, 301, 532, 553, 532, 746, 616,
        ],
    },
    Run {
        first: 0x0400,
        regular: &[
            527, 527, 687, 498, 571, 534, 263, 263, 480, 897, 929, 696, 579, 656, 514, 645, 544,
            580, 588, 498, 638, 527, 830, 550, 658, 656, 579, 630, 727, 652, 664, 645, 566, 571,
            536, 514, 732, 513, 642, 598, 877, 880, 720, 798, 580, 571, 908, 582, 504, 544, 508,
            411, 533, 496, 688, 456, 565, 565, 495, 531, 633, 562, 542, 553, 555, 456, 460, 467,
            734, 446, 558, 512, 749, 761, 596, 674, 491, 456, 738, 515, 496, 496, 560, 411, 456,
            419, 246, 246, 247, 735, 758, 544, 495, 565, 467, 558,
        ],
        bold: &[
            548, 548, 701, 521, 582, 556, 301, 301, 509, 906, 933, 718, 614, 676, 555, 663, 573,
            600, 605, 521, 670, 548, 875, 556, 678, 676, 614, 657, 762, 674, 684, 663, 596, 582,
            556, 555, 764, 567, 669, 630, 914, 928, 730, 853, 600, 582, 950, 617, 527, 561, 528,
            432, 584, 518, 763, 476, 583, 583, 548, 573, 660, 582, 555, 574, 573, 467, 492, 521,
            779, 514, 596, 550, 803, 830, 623, 739, 516, 468, 776, 545, 518, 518, 576, 432, 468,
            443, 276, 276, 278, 780, 788, 571, 548, 583, 521, 578,
        ],
    },
    Run {
        first: 0x0490,
        regular: &[498, 416],
        bold: &[521, 433],
    },
    Run {
        first: 0x1E80,
        regular: &[786, 718, 786, 718, 786, 718],
        bold: &[813, 776, 813, 776, 813, 776],
    },
    Run {
        first: 0x1E9E,
        regular: &[667],
        bold: &[705],
    },
    Run {
        first: 0x1EF2,
        regular: &[476, 467],
        bold: &[525, 521],
    },
    Run {
        first: 0x2007,
        regular: &[
            497, N, 100, 20, 0, N, N, N, N, 311, 311, 497, 480, 800, 800, 391, 500, 249, 249, 249,
            249, 426, 426, 426, N, 454, 454, 304, 304, N, N, 948,
        ],
        bold: &[
            528, N, 100, 20, 0, N, N, N, N, 332, 332, 528, 480, 800, 800, 454, 500, 300, 300, 300,
            300, 537, 537, 537, N, 510, 510, 345, 345, N, N, 978,
        ],
    },
    Run {
        first: 0x202F,
        regular: &[
            120, 1194, 1564, 249, 426, N, 249, N, N, N, 271, 271, N, 549, 432, 500, 563, N, N, N,
            N, 86, N, N, 815, 679, 679, 444,
        ],
        bold: &[
            120, 1249, 1640, 300, 537, N, 300, N, N, N, 292, 292, N, 615, 480, 500, 587, N, N, N,
            N, 96, N, N, 873, 751, 751, 503,
        ],
    },
    Run {
        first: 0x2070,
        regular: &[367, N, N, N, 367, 367, 367, 367, 367, 367],
        bold: &[376, N, N, N, 376, 376, 376, 376, 376, 376],
    },
    Run {
        first: 0x2080,
        regular: &[367, 367, 367, 367, 367, 367, 367, 367, 367, 367],
        bold: &[376, 376, 376, 376, 376, 376, 376, 376, 376, 376],
    },
    Run {
        first: 0x20AC,
        regular: &[497],
        bold: &[528],
    },
    Run {
        first: 0x2116,
        regular: &[893],
        bold: &[967],
    },
    Run {
        first: 0x2122,
        regular: &[637, N, N, N, 678],
        bold: &[682, N, N, N, 711],
    },
    Run {
        first: 0x2150,
        regular: &[
            804, 804, 1092, 804, 821, 804, 821, 821, 846, 804, 821, 804, 821, 821, 801,
        ],
        bold: &[
            837, 837, 1155, 837, 849, 837, 849, 849, 892, 837, 849, 837, 849, 849, 829,
        ],
    },
    Run {
        first: 0x2190,
        regular: &[619, 619, 619, 619, 619, 619, 619, 619, 619, 619],
        bold: &[617, 617, 617, 617, 617, 617, 617, 617, 617, 617],
    },
    Run {
        first: 0x2202,
        regular: &[528, N, N, N, 588],
        bold: &[577, N, N, N, 640],
    },
    Run {
        first: 0x220F,
        regular: &[673, N, 504, 497, N, N, 86, N, N, N, N, 557, N, N, N, 782],
        bold: &[710, N, 534, 528, N, N, 96, N, N, N, N, 588, N, N, N, 814],
    },
    Run {
        first: 0x222B,
        regular: &[355],
        bold: &[396],
    },
    Run {
        first: 0x2248,
        regular: &[497],
        bold: &[528],
    },
    Run {
        first: 0x2260,
        regular: &[497, N, N, N, 497, 497],
        bold: &[528, N, N, N, 528, 528],
    },
    Run {
        first: 0x25A0,
        regular: &[600, 600],
        bold: &[600, 600],
    },
    Run {
        first: 0x25B2,
        regular: &[600, 600],
        bold: &[600, 600],
    },
    Run {
        first: 0x25BC,
        regular: &[600],
        bold: &[600],
    },
    Run {
        first: 0x25CB,
        regular: &[600, N, N, N, 600],
        bold: &[600, N, N, N, 600],
    },
    Run {
        first: 0x2713,
        regular: &[612, N, N, N, 526],
        bold: &[647, N, N, N, 565],
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dimension_is_not_broken() {
        let words =
            "studs 5 to 9, 9' 2-3/4\" in from outside of W1, leave 1' 6\", 5/8 in bit, 600 mm";
        let whole = ["9' 2-3/4\"", "1' 6\"", "5/8 in", "600 mm"];
        for room in 18..80 {
            let lines = wrap(words, Weight::Regular, 3.5, f64::from(room));
            for one in whole {
                assert!(
                    lines.iter().any(|line| line.contains(one)),
                    "{room}: {lines:?}"
                );
            }
            assert_eq!(lines.join(" "), words);
        }
        // What is wider than its room is broken all the same.
        let lines = wrap("9' 2-3/4\"", Weight::Regular, 3.5, 12.0);
        assert_eq!(lines, ["9'", "2-3/4\""]);
    }

    #[test]
    fn figures_are_tabular() {
        let widths = |weight| ('0'..='9').map(move |sign| advance(sign, weight));
        assert!(widths(Weight::Regular).all(|width| width == 0.497));
        assert!(widths(Weight::Bold).all(|width| width == 0.528));
    }

    #[test]
    fn a_sign_the_font_lacks_is_wide_and_said_so() {
        assert!(has('é') && has('½') && has('Ж') && !has('漢'));
        assert_eq!(width("漢", Weight::Regular), 0.9);
    }

    #[test]
    fn what_is_shortened_fits() {
        assert_eq!(shorten("Garage", Weight::Bold, 4.0, 100.0), "Garage");
        let cut = shorten(
            "W12, studs 3 to 9 from its north end",
            Weight::Regular,
            4.0,
            30.0,
        );
        assert!(
            cut.ends_with('…') && width(&cut, Weight::Regular) * 4.0 <= 30.0,
            "{cut}"
        );
        assert_eq!(shorten("Garage", Weight::Bold, 4.0, 1.0), "");
    }

    #[test]
    fn lines_break_at_spaces() {
        let lines = wrap("look for power, gas and water", Weight::Regular, 4.0, 26.0);
        assert_eq!(lines, ["look for power,", "gas and water"]);
        assert!(wrap("  ", Weight::Regular, 4.0, 26.0).is_empty());
    }

    #[test]
    fn a_word_too_wide_is_broken_and_whole() {
        for room in [0.0, 3.0, 12.0, 40.0] {
            let lines = wrap("a Donaudampfschifffahrtskapitän", Weight::Bold, 4.0, room);
            assert_eq!(
                lines.concat().replace(' ', ""),
                "aDonaudampfschifffahrtskapitän"
            );
            let wide = |line: &String| width(line, Weight::Bold) * 4.0 > room;
            assert!(
                !lines
                    .iter()
                    .any(|line| wide(line) && line.chars().count() > 1)
            );
        }
    }
}
