//! What a way to bore a crossing takes, and why one was taken rather than another, in the words of
//! the trade. Weighs what it is given; sizes nothing.

use crate::plan::Plan;
use crate::route::Crossing;
use crate::units::{Size, Units, counted};

/// One way to bore a crossing: its bits, its steel and how long it takes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Offer {
    /// One bit a bore.
    pub bits: Vec<Size>,
    /// Nail plates over all of them.
    pub nail_plates: u32,
    /// Plate ties over all of them.
    pub ties: u32,
    /// Minutes to drill, seal and nail.
    pub minutes: f64,
}

impl Offer {
    /// Whether it needs no steel.
    pub fn is_bare(&self) -> bool {
        self.nail_plates == 0 && self.ties == 0
    }

    /// "two 1 in holes with 4 nail plates", "one 3/4 in hole without steel".
    fn words(&self, units: Units) -> String {
        let steel = match (self.nail_plates, self.ties) {
            (0, 0) => String::from("without steel"),
            (plates, 0) => format!("with {}", counted(plates, "nail plate")),
            (0, ties) => format!("with {}", counted(ties, "tie")),
            (plates, ties) => {
                format!(
                    "with {} and {}",
                    counted(plates, "nail plate"),
                    counted(ties, "tie")
                )
            }
        };
        format!("{} {steel}", self.holes(units))
    }

    fn holes(&self, units: Units) -> String {
        let mut bits: Vec<i64> = self.bits.iter().map(|bit| bit.micrometres()).collect();
        bits.sort_unstable_by(|a, b| b.cmp(a));
        let alike = bits.chunk_by(|a, b| a == b);
        let named: Vec<String> = alike
            .filter_map(|alike| Some((alike.len(), Size::from_micrometres(*alike.first()?))))
            .map(|(count, bit)| format!("{} {}", number(count), units.size(bit)))
            .collect();
        let hole = if bits.len() == 1 { "hole" } else { "holes" };
        format!("{} {hole}", named.join(" and "))
    }
}

/// Why the first of these offers was taken; empty where there was nothing to weigh.
pub(super) fn reason(
    plan: &Plan,
    crossing: &Crossing,
    allowed: Option<Size>,
    offers: &[Offer],
) -> String {
    let Some((best, rivals)) = offers.split_first() else {
        return String::new();
    };
    let fewest = offers.iter().map(|offer| offer.bits.len()).min();
    let split = fewest.is_some_and(|fewest| fewest > 1);
    if !split && best.bits.len() == 1 && best.is_bare() {
        return String::new();
    }
    let units = plan.units;
    let mut sentences = Vec::new();
    if split {
        sentences.push(too_many(plan, crossing, allowed));
    }
    sentences.push(format!(
        "{} {} {}.",
        capital(&best.words(units)),
        takes(best),
        minutes(best.minutes)
    ));
    match rivals.first() {
        Some(rival) => sentences.push(format!(
            "{} would take {}.",
            capital(&rival.words(units)),
            minutes(rival.minutes)
        )),
        None if !best.is_bare() => {
            sentences.push(String::from(
                "No more and smaller holes would be less work.",
            ));
        }
        None => {}
    }
    sentences.join(" ")
}

fn too_many(plan: &Plan, crossing: &Crossing, allowed: Option<Size>) -> String {
    let count = crossing.cables.len();
    let largest = plan.catalogue.bits.last().copied();
    match allowed.filter(|limit| largest.is_some_and(|bit| !bit.within(*limit))) {
        Some(limit) => format!(
            "{count} cables are too many for one hole: this member allows {}.",
            plan.units.limit(limit)
        ),
        None => format!(
            "{count} cables are too many for one hole: the largest bit in the van is {}.",
            plan.units.size(largest.unwrap_or_default())
        ),
    }
}

fn takes(offer: &Offer) -> &'static str {
    match offer.bits.len() {
        1 => "takes",
        _ => "take",
    }
}

/// "4.5 min", "6 min".
fn minutes(minutes: f64) -> String {
    format!("{} min", (minutes * 10.0).round() / 10.0)
}

fn number(count: usize) -> String {
    let small = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    ];
    small
        .get(count)
        .map_or_else(|| count.to_string(), |word| (*word).to_string())
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters
        .next()
        .map(|letter| letter.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn offer(bits: &[f64], nail_plates: u32, ties: u32, minutes: f64) -> Offer {
        Offer {
            bits: bits.iter().map(|bit| Size::inches(*bit)).collect(),
            nail_plates,
            ties,
            minutes,
        }
    }

    #[test]
    fn an_offer_is_told_as_a_crew_says_it() {
        let words = |offer: Offer| offer.words(Units::Imperial);
        assert_eq!(
            words(offer(&[1.0], 0, 0, 1.5)),
            "one 1 in hole without steel"
        );
        assert_eq!(
            words(offer(&[1.25, 1.25], 4, 1, 7.0)),
            "two 1-1/4 in holes with 4 nail plates and 1 tie"
        );
        assert_eq!(
            words(offer(&[0.75, 1.0, 1.0], 0, 0, 4.5)),
            "two 1 in and one 3/4 in holes without steel"
        );
    }
}
