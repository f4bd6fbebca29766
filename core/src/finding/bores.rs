//! Findings about bores: over the member's limit, over its fill, by the maker's chart, in bearing
//! members.

use super::{Finding, Severity, Subject};
use crate::bore::{Bore, limit, member_name};
use crate::framing::Framing;
use crate::plan::{Level, Plan, Wall};
use crate::route::{Crossing, Member, Ways};
use crate::rules::{RuleBook, RuleId};

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut last = 0;
    for bore in bores {
        // A row shares its number and says everything once.
        if bore.number == last {
            continue;
        }
        last = bore.number;
        let crossing = &ways.crossings[bore.crossing];
        let checks = [over(plan, framing, ways, bore), tie(plan, crossing, bore)];
        found.extend(
            checks
                .into_iter()
                .flatten()
                .map(|f| f.at(crossing.level, crossing.at)),
        );
    }
    found.extend(webs(plan, framing, ways, bores));
    found.extend(bearing(plan, ways, bores));
    found
}

/// A stable name for a bore: what it goes through and where, not its number.
fn key(kind: &str, crossing: &Crossing) -> String {
    let wall = crossing.wall.map_or(0, |wall| wall.0);
    format!("{kind}:{}:W{wall}:{:.0}", crossing.level.0, crossing.offset)
}

fn over(plan: &Plan, framing: &Framing, ways: &Ways, bore: &Bore) -> Option<Finding> {
    if bore.within_rules {
        return None;
    }
    let crossing = &ways.crossings[bore.crossing];
    let subject = Subject::Bore(bore.number);
    let finding = Finding::new(key("over-limit", crossing), Severity::Stop, subject);
    let allowed = limit(plan, framing, ways, crossing);
    let (bit, member) = (
        plan.units.size(bore.bit),
        member_name(plan, framing, crossing),
    );
    let usual = "Send some cables another way, open another wall, or ask the builder.";
    let todo = doubled(plan, crossing, allowed.rule).unwrap_or_else(|| String::from(usual));
    Some(
        match allowed.largest.filter(|largest| !bore.bit.within(*largest)) {
            Some(largest) => {
                let what = format!(
                    "Bore {}: {} cables want a {bit} bore; this {member} allows {}.",
                    bore.number,
                    bore.cables.len(),
                    plan.units.limit(largest)
                );
                finding
                    .says(what, todo)
                    .by(plan.rules.rule(allowed.rule).source.words())
            }
            None => {
                let rule = plan.rules.fill_rule(bore.cables.len());
                let what = format!(
                    "Bore {}: no bit the crew owns holds its {} cables; a {bit} bore would be {:.0} % full.",
                    bore.number,
                    bore.cables.len(),
                    bore.fill * 100.0
                );
                finding
                    .says(what, todo)
                    .by(plan.rules.rule(rule).source.words())
            }
        },
    )
}

/// What doubled studs would allow, where single ones of a bearing wall do not.
fn doubled(plan: &Plan, crossing: &Crossing, rule: RuleId) -> Option<String> {
    let (_, wall) = crossing.wall.and_then(|wall| plan.wall(wall))?;
    let rules = &plan.rules;
    let single = rule == RuleId::StudBearingBore && wall.role.is_bearing();
    let studs = matches!(crossing.member, Member::Studs(_));
    single.then(|| match wall.doubled && studs {
        true => format!(
            "Send some cables another way: not more than {:.0} doubled studs in a row may be bored \
             wider than single ones.",
            rules.value(RuleId::StudDoubledRow)
        ),
        false => format!(
            "Send some cables another way, or ask the builder to double the studs: they would allow \
             {}, not more than {:.0} in a row.",
            plan.units.limit(rules.stud_limit(wall.width(), true, true)),
            rules.value(RuleId::StudDoubledRow)
        ),
    })
}

/// I-joist webs, one finding a floor.
fn webs(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let in_space = |bore: &&Bore, index: usize| matches!(ways.crossings[bore.crossing].member, Member::Web { space } if space == index);
    let of = |index: usize| {
        let numbers = numbers(bores.iter().filter(|bore| in_space(bore, index)));
        let first = bores.iter().find(|bore| in_space(bore, index))?;
        let crossing = &ways.crossings[first.crossing];
        let level = plan.level(crossing.level)?;
        let finding = Finding::new(
            format!("web:{index}"),
            Severity::Warn,
            Subject::Level(level.id),
        );
        let what = format!("{} I-joist webs over {}.", goes(&numbers), level.name);
        let todo = "Ask for the maker's hole chart before drilling; flanges are never cut.";
        Some(
            finding
                .at(level.id, crossing.at)
                .says(what, todo)
                .by("IRC 2018, R502.8.2: as the maker allows"),
        )
    };
    (0..framing.spaces.len()).filter_map(of).collect()
}

/// Studs and plates of bearing and outside walls, one finding a wall.
fn bearing(plan: &Plan, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let walls = plan
        .levels
        .iter()
        .flat_map(|level| level.walls.iter().map(move |wall| (level, wall)));
    let of = |(level, wall): (&Level, &Wall)| {
        let in_wall = |bore: &&Bore| {
            let crossing = &ways.crossings[bore.crossing];
            (is_upright(crossing) || is_plate(crossing)) && crossing.wall == Some(wall.id)
        };
        let any = |is: fn(&Crossing) -> bool| {
            let mut here = bores.iter().filter(in_wall);
            here.any(|bore| is(&ways.crossings[bore.crossing]))
        };
        let (what, rule) = match (any(is_upright), any(is_plate)) {
            (true, true) => ("studs and plates", RuleId::StudBearingBore),
            (true, false) => ("studs", RuleId::StudBearingBore),
            _ => ("plates", RuleId::PlateTie),
        };
        let first = bores.iter().find(in_wall)?;
        let numbers = numbers(bores.iter().filter(in_wall));
        let label = wall.label();
        let finding = Finding::new(
            format!("bearing:{label}"),
            Severity::Note,
            Subject::Wall(wall.id),
        );
        let what = format!("{} {} {what} of {label}.", goes(&numbers), wall.role.name());
        let source = plan.rules.rule(rule).source.words();
        let todo = "Show it to the builder before drilling.";
        Some(
            finding
                .at(level.id, ways.crossings[first.crossing].at)
                .says(what, todo)
                .by(source),
        )
    };
    walls
        .filter(|(_, wall)| wall.role.is_bearing())
        .filter_map(of)
        .collect()
}

fn is_upright(crossing: &Crossing) -> bool {
    matches!(crossing.member, Member::Studs(_) | Member::Corner { .. })
}

fn is_plate(crossing: &Crossing) -> bool {
    matches!(
        crossing.member,
        Member::TopPlates(_) | Member::BottomPlates(_)
    )
}

fn numbers<'b>(bores: impl Iterator<Item = &'b Bore>) -> Vec<u32> {
    let mut numbers: Vec<u32> = bores.map(|bore| bore.number).collect();
    numbers.dedup();
    numbers
}

/// "Bore 3 goes through", "Bores 3, 4 and 9 go through", "Bores 1 to 15 and 18 go through".
fn goes(numbers: &[u32]) -> String {
    let stretches = stretches(numbers);
    let words: Vec<String> = stretches.iter().map(stretch_words).collect();
    match (numbers, words.as_slice()) {
        ([one], _) => format!("Bore {one} goes through"),
        (_, [only]) => format!("Bores {only} go through"),
        (_, [rest @ .., last]) if words.len() <= MOST_STRETCHES => {
            format!("Bores {} and {last} go through", rest.join(", "))
        }
        (_, [..]) if !words.is_empty() => {
            let told: usize = stretches.iter().take(MOST_STRETCHES).map(length).sum();
            let first = words[..MOST_STRETCHES].join(", ");
            let more = numbers.len().saturating_sub(told);
            format!("Bores {first} and {more} more go through")
        }
        _ => String::from("No bore goes through"),
    }
}

/// So many stretches of numbers are told; the rest are counted.
const MOST_STRETCHES: usize = 5;

/// Numbers that follow one another, as their first and last.
fn stretches(numbers: &[u32]) -> Vec<(u32, u32)> {
    let mut stretches: Vec<(u32, u32)> = Vec::new();
    for number in numbers {
        match stretches.last_mut() {
            Some((_, last)) if *last + 1 == *number => *last = *number,
            _ => stretches.push((*number, *number)),
        }
    }
    stretches
}

fn length((first, last): &(u32, u32)) -> usize {
    (last - first) as usize + 1
}

fn stretch_words((first, last): &(u32, u32)) -> String {
    match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first} to {last}"),
    }
}

fn tie(plan: &Plan, crossing: &Crossing, bore: &Bore) -> Option<Finding> {
    bore.tie.then(|| {
        Finding::new(
            key("tie", crossing),
            Severity::Warn,
            Subject::Bore(bore.number),
        )
        .says(
            format!(
                "Bore {} takes more than half of a top plate's width.",
                bore.number
            ),
            tie_words(plan),
        )
        .by(plan.rules.rule(RuleId::PlateTie).source.words())
    })
}

/// What the tie is, where the book in force was read to say it: IRC 2018, R602.6.1, 0.054 in of galvanized
/// steel, 1-1/2 in wide, 6 in past the opening, eight 10d nails on each side of it.
fn tie_words(plan: &Plan) -> &'static str {
    match plan.rules.speaking() {
        RuleBook::UnitedStates => {
            "Nail a galvanized steel tie across the plate, 16 ga (0.054 in), 1-1/2 in wide and 6 in past the \
             bore on both sides, with eight 10d nails a side; or use smaller bores."
        }
        _ => "Nail a metal tie across the plate, or use smaller bores.",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_follow_one_another_are_told_by_their_ends() {
        assert_eq!(goes(&[3]), "Bore 3 goes through");
        assert_eq!(goes(&[3, 4, 9]), "Bores 3, 4 and 9 go through");
        let all: Vec<u32> = (1..=15).collect();
        assert_eq!(goes(&all), "Bores 1 to 15 go through");
        assert_eq!(goes(&[1, 2, 3, 7]), "Bores 1 to 3 and 7 go through");
        assert_eq!(
            goes(&[1, 3, 5, 7, 9, 11, 12, 13]),
            "Bores 1, 3, 5, 7, 9 and 3 more go through"
        );
        assert_eq!(goes(&[]), "No bore goes through");
    }
}
