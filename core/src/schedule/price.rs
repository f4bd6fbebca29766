//! What the job costs by its finished bores, beside what its ways were sought by.

use serde::{Deserialize, Serialize};

use crate::bore::Bore;
use crate::route::network::UNHELD;
use crate::route::{Laid, Ways};

/// What ways and bores cost, in thousandths of a minute of work at the contractor's rates.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Price {
    /// What the ways cost apart from bores.
    pub laid: Laid,
    /// Bores as they are drilled, sealed and protected.
    pub bores: u64,
    /// What bores that nothing lawful holds count on top, so that ways keep off. Nobody works for it.
    pub unheld: u64,
    /// What the ways were sought by, less all of this: what the search counted for bores and nobody drills.
    pub difference: i64,
}

impl Price {
    /// Prices finished bores.
    pub(super) fn of(ways: &Ways, bores: &[Bore]) -> Self {
        let unheld = bores.iter().filter(|bore| !bore.within_rules).count() as u64;
        let mut price = Self {
            laid: ways.laid,
            bores: bores.iter().map(|bore| u64::from(bore.price)).sum(),
            unheld: unheld * u64::from(UNHELD),
            difference: 0,
        };
        price.difference = ways.cost as i64 - price.total() as i64;
        price
    }

    /// What of the cost nobody works or pays for, and how far the bores are from what was counted for them;
    /// `None` where there is nothing to tell.
    pub fn words(&self) -> Option<String> {
        let kept_off = self.laid.beside_power + self.unheld;
        let kept_off = (kept_off > 0).then(|| {
            format!(
                "{} of it stand for cable beside power or for holes that no bit holds, and are nobody\u{2019}s work.",
                minutes(kept_off)
            )
        });
        let far = self.difference.unsigned_abs();
        let side = if self.difference > 0 { "less" } else { "more" };
        let difference = (far > 0).then(|| {
            format!(
                "The holes take {} {side} than was counted for them.",
                minutes(far)
            )
        });
        let told: Vec<String> = kept_off.into_iter().chain(difference).collect();
        (!told.is_empty()).then(|| told.join(" "))
    }

    /// All of it together.
    pub fn total(&self) -> u64 {
        let Laid {
            cable,
            beside_power,
            supports,
        } = self.laid;
        cable + beside_power + supports + self.bores + self.unheld
    }
}

/// "3.5 minutes", "1 minute".
fn minutes(thousandths: u64) -> String {
    match (thousandths + 50) / 100 {
        0 => String::from("less than 0.1 minutes"),
        10 => String::from("1 minute"),
        tenths => format!("{} minutes", tenths as f64 / 10.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_work_is_told_and_what_differs() {
        let price = |beside_power, difference| Price {
            laid: Laid {
                beside_power,
                ..Laid::default()
            },
            difference,
            ..Price::default()
        };
        assert_eq!(price(0, 0).words(), None);
        let told = price(3_460, 0).words().unwrap();
        assert!(told.starts_with("3.5 minutes of it stand for cable beside power"));
        let told = price(0, 1_500).words().unwrap();
        assert_eq!(
            told,
            "The holes take 1.5 minutes less than was counted for them."
        );
        assert!(price(1, -1_000).words().unwrap().contains("1 minute more"));
    }
}
