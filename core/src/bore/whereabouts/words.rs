//! Whereabouts as they stand on paper and page: "W6, stud 4 from its W2 end, 7-1/4\" past its far
//! face", "joists 3 to 10 from W4, 9' 2-3/4\" in from outside of W1".

use super::{Across, Along, Face, Past, Whereabouts, Which};
use crate::framing::{Framing, StudKind};
use crate::plan::{Plan, WallId};
use crate::units::Mm;

impl Whereabouts {
    /// Where, without the height, which has a place of its own on every list.
    pub fn words(&self, plan: &Plan, framing: &Framing) -> String {
        let along = self.along.words(plan, framing);
        match self.across {
            Across::In {
                from,
                distance,
                last,
            } => {
                let position = |distance| plan.units.position(Mm::rounded(distance));
                let distance = match last {
                    Some(last) => {
                        let ends = (position(distance), position(last));
                        format!("{} (first) to {} (last)", ends.0, ends.1)
                    }
                    None => position(distance),
                };
                format!("{along}, {distance} in from {}", from.words())
            }
            Across::Height(_) | Across::Centred => along,
        }
    }
}

impl Along {
    /// "W6, studs 5 to 9 from its W4 end".
    pub fn words(&self, plan: &Plan, framing: &Framing) -> String {
        match self {
            Self::Studs {
                wall,
                numbers,
                kinds,
            } => {
                let counted = counted("stud", numbers);
                let through = through(kinds);
                format!(
                    "W{}, {counted}{}{through}",
                    wall.0,
                    from_end(framing, *wall)
                )
            }
            Self::Short {
                wall,
                past,
                nth,
                kinds,
            } => {
                let end = from_end(framing, *wall);
                let after = match past {
                    0 => end,
                    past => format!(" past stud {past}{end}"),
                };
                format!(
                    "W{}, {}{after}: {}",
                    wall.0,
                    ordinals(*nth),
                    kinds_of(kinds)
                )
            }
            Self::Past(past) => past.words(plan, framing),
            Self::Corner { from, into } => {
                let into = into.bay_words(framing);
                format!("{} to {into}", from.bay_words(framing))
            }
            Self::Joists { which, .. } => which.words(plan),
        }
    }
}

impl Past {
    /// "W6, stud 4 from its W2 end, 7-1/4\" past its far face".
    fn words(&self, plan: &Plan, framing: &Framing) -> String {
        let distance = plan.units.position(Mm::rounded(self.distance.abs()));
        let end = from_end(framing, self.wall);
        match self.stud {
            // What hangs on an outside corner may hang before the end of the plates behind it.
            0 if self.distance < 0.0 => {
                let end = end.replacen(" from", "", 1);
                format!("W{}, {distance} beyond{end}", self.wall.0)
            }
            0 => format!("W{}, {distance}{end}", self.wall.0),
            stud => format!(
                "W{}, stud {stud}{end}, {distance} past its far face",
                self.wall.0
            ),
        }
    }

    /// "W6 after stud 4 from its W2 end".
    pub(in crate::bore) fn bay_words(&self, framing: &Framing) -> String {
        let end = from_end(framing, self.wall);
        match self.stud {
            0 => format!("W{} at{}", self.wall.0, end.replacen(" from", "", 1)),
            stud => format!("W{} after stud {stud}{end}", self.wall.0),
        }
    }
}

impl Which {
    fn words(&self, plan: &Plan) -> String {
        let position = |distance: f64| plan.units.position(Mm::rounded(distance));
        match self {
            Self::Counted { from, numbers } => {
                format!("{} from W{}", counted("joist", numbers), from.0)
            }
            Self::Off {
                from,
                nearest,
                farthest,
            } if farthest > nearest => format!(
                "joists {} to {} in from {}",
                position(*nearest),
                position(*farthest),
                from.words()
            ),
            Self::Off { from, nearest, .. } => {
                format!("joist {} in from {}", position(*nearest), from.words())
            }
        }
    }
}

impl Face {
    /// "outside of W1".
    pub fn words(self) -> String {
        match self {
            Self::Outside(wall) => format!("outside of W{}", wall.0),
            Self::Near(wall) => format!("the face of W{}", wall.0),
            Self::Line(wall) => format!("the line of W{}'s far face", wall.0),
            Self::End(wall) => format!("the end of W{}", wall.0),
        }
    }
}

/// " from its W4 end": the end a wall's studs are counted from.
fn from_end(framing: &Framing, wall: WallId) -> String {
    let frame = framing.wall(wall);
    frame.map_or_else(String::new, |frame| {
        format!(" from its {}", frame.end_name(true))
    })
}

/// "stud 4", "studs 4 to 9", "studs 4, 6 to 9".
fn counted(one: &str, numbers: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for number in numbers {
        match runs.last_mut().filter(|run| run.1 + 1 == *number) {
            Some(run) => run.1 = *number,
            None => runs.push((*number, *number)),
        }
    }
    let run = |(first, last): &(u32, u32)| match first == last {
        true => first.to_string(),
        false => format!("{first} to {last}"),
    };
    let runs: Vec<String> = runs.iter().map(run).collect();
    let many = if numbers.len() > 1 { "s" } else { "" };
    format!("{one}{many} {}", runs.join(", "))
}

/// ": jack, jack, king", where not every one is a stud like any other.
fn through(kinds: &[StudKind]) -> String {
    let is_special =
        |kind: &StudKind| matches!(kind, StudKind::King | StudKind::Jack | StudKind::Cripple);
    match kinds.iter().any(is_special) {
        true => format!(": {}", kinds_of(kinds)),
        false => String::new(),
    }
}

fn kinds_of(kinds: &[StudKind]) -> String {
    let named: Vec<&str> = kinds.iter().map(|kind| kind_name(*kind)).collect();
    named.join(", ")
}

fn kind_name(kind: StudKind) -> &'static str {
    match kind {
        StudKind::King => "king",
        StudKind::Jack => "jack",
        StudKind::Cripple => "cripple",
        StudKind::End | StudKind::Common | StudKind::Corner | StudKind::Backing => "stud",
    }
}

/// "2nd upright", "2nd to 4th uprights".
fn ordinals((first, last): (u32, u32)) -> String {
    let nth = |number: u32| {
        let ending = match (number % 10, number % 100) {
            (_, 11..=13) => "th",
            (1, _) => "st",
            (2, _) => "nd",
            (3, _) => "rd",
            _ => "th",
        };
        format!("{number}{ending}")
    };
    match first == last {
        true => format!("{} upright", nth(first)),
        false => format!("{} to {} uprights", nth(first), nth(last)),
    }
}
