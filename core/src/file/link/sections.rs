//! The sections of version 1 in their order, and the plan they make.

use std::collections::BTreeMap;

use super::columns::{Reader, Writer};
use super::words::Texts;
use super::{LinkError, drops, levels, printed, replies, settings, site, walls};
use crate::plan::Plan;

/// What each section is. Odd ones must be understood by a reader.
mod tag {
    pub const JOB: u8 = 1;
    pub const LEVELS: u8 = 3;
    pub const WALLS: u8 = 5;
    pub const OPENINGS: u8 = 7;
    pub const ROOMS: u8 = 9;
    pub const KEEP_OUTS: u8 = 11;
    pub const POWER_RUNS: u8 = 13;
    pub const CLOSET: u8 = 15;
    pub const DROPS: u8 = 17;
    pub const PINS: u8 = 19;
    pub const RULES: u8 = 21;
    pub const CATALOGUE: u8 = 23;
    pub const DISMISSED: u8 = 25;
    pub const NUMBERS: u8 = 27;
    pub const TEXTS: u8 = 29;
    pub const ON_HAND: u8 = 30;
    /// As replies were until they carried SHA-256; read, not written.
    pub const EARLIER_REPLIES: u8 = 32;
    pub const REPLIES: u8 = 40;
    pub const DATES: u8 = 36;
    pub const DOUBLED: u8 = 35;
    pub const JOIST_LAYOUT: u8 = 37;
    pub const TWISTED_PAIR: u8 = 39;
    pub const PRINTED: u8 = 41;
}

type Put = fn(&Plan, &mut Writer);
type Take = fn(&mut Plan, &mut Reader, &mut Texts) -> Result<(), LinkError>;

/// Every section in the order it is written and read; a section may lean on those before it.
const SECTIONS: [(u8, Put, Take); 22] = [
    (
        tag::CATALOGUE,
        settings::put_catalogue,
        settings::take_catalogue,
    ),
    (tag::JOB, settings::put_job, settings::take_job),
    (tag::LEVELS, levels::put, levels::take),
    (tag::WALLS, walls::put, walls::take),
    (tag::OPENINGS, walls::put_openings, walls::take_openings),
    (tag::ROOMS, site::put_rooms, site::take_rooms),
    (tag::KEEP_OUTS, site::put_keep_outs, site::take_keep_outs),
    (tag::POWER_RUNS, site::put_power_runs, site::take_power_runs),
    (tag::CLOSET, drops::put_closet, drops::take_closet),
    (tag::DROPS, drops::put, drops::take),
    (tag::PINS, drops::put_pins, drops::take_pins),
    (tag::RULES, settings::put_rules, settings::take_rules),
    (
        tag::DISMISSED,
        settings::put_dismissed,
        settings::take_dismissed,
    ),
    (tag::NUMBERS, settings::put_numbers, settings::take_numbers),
    (tag::ON_HAND, settings::put_on_hand, settings::take_on_hand),
    (tag::EARLIER_REPLIES, |_, _| (), replies::take_earlier),
    (tag::REPLIES, replies::put, replies::take),
    (tag::DATES, settings::put_dates, settings::take_dates),
    (tag::DOUBLED, walls::put_doubled, walls::take_doubled),
    (tag::JOIST_LAYOUT, levels::put_layout, levels::take_layout),
    (
        tag::TWISTED_PAIR,
        settings::put_twisted_pair,
        settings::take_twisted_pair,
    ),
    (tag::PRINTED, printed::put, printed::take),
];

/// A plan as contents.
pub(super) fn write(plan: &Plan) -> Vec<u8> {
    let mut contents = Writer::default();
    for (tag, put, _) in SECTIONS {
        let mut section = Writer {
            texts: std::mem::take(&mut contents.texts),
            ..Writer::default()
        };
        put(plan, &mut section);
        contents.texts = section.texts;
        append(&mut contents, tag, &section.bytes);
    }
    let texts = std::mem::take(&mut contents.texts);
    append(&mut contents, tag::TEXTS, &texts);
    contents.bytes
}

fn append(contents: &mut Writer, tag: u8, section: &[u8]) {
    if !section.is_empty() {
        contents.bytes.push(tag);
        contents.number(section.len() as u64);
        contents.bytes.extend(section);
    }
}

/// The plan in contents.
pub(super) fn read(contents: &[u8]) -> Result<Plan, LinkError> {
    let found = split(contents)?;
    let mut texts = Texts::new(found.get(&tag::TEXTS).copied().unwrap_or_default());
    let mut plan = Plan::new();
    plan.levels.clear();
    for (tag, _, take) in SECTIONS {
        let mut section = Reader::new(found.get(&tag).copied().unwrap_or_default());
        take(&mut plan, &mut section, &mut texts)?;
        if !section.is_empty() {
            return Err(LinkError::Altered);
        }
    }
    match texts.is_empty() {
        true => Ok(plan),
        false => Err(LinkError::Altered),
    }
}

fn split(contents: &[u8]) -> Result<BTreeMap<u8, &[u8]>, LinkError> {
    let mut found = BTreeMap::new();
    let mut rest = Reader::new(contents);
    while !rest.is_empty() {
        let tag = *rest.take(1)?.first().ok_or(LinkError::Altered)?;
        let length = rest.count(contents.len())?;
        let section = rest.take(length)?;
        let known = tag == tag::TEXTS || SECTIONS.iter().any(|(known, ..)| *known == tag);
        match (known, tag % 2) {
            (true, _) if found.insert(tag, section).is_some() => return Err(LinkError::Altered),
            (false, 1) => return Err(LinkError::TooNew),
            _ => {}
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unknown_sections_are_passed_over_or_refused_by_their_tag() {
        let contents = write(&Plan::new());
        let with = |tag: u8| {
            let mut longer = contents.clone();
            longer.extend([tag, 2, 9, 9]);
            read(&longer)
        };
        assert_eq!(with(200), Ok(Plan::new()));
        assert_eq!(with(201), Err(LinkError::TooNew));
        assert_eq!(with(tag::TEXTS), Err(LinkError::Altered));
    }
}
