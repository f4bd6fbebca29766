//! Rules, catalogue, findings set aside and the next numbers, version 1.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{MANY, from, is_false, is_zero, words};
use crate::file::fields::{Fields, List};
use crate::file::losses::Losses;
use crate::file::mend;
use crate::plan::edit::tidy_line;
use crate::plan::{self, Plan};
use crate::rules::{self, RuleId};
use crate::units::{Mm, Size};

words!(RuleBook is rules::RuleBook:
    UnitedStates = "united states",
    Canada = "canada",
    UnitedKingdom = "united kingdom",
    AustraliaNewZealand = "australia and new zealand",
);

/// The book and the figures a person changed, by the rule's own key.
#[derive(Serialize)]
pub(super) struct Rules {
    book: RuleBook,
    /// Whether the own copy is in force; if not there, it is where a limit was changed.
    #[serde(skip_serializing_if = "Option::is_none")]
    own: Option<bool>,
    /// The book the own copy was begun from; if not there, the chosen one.
    #[serde(skip_serializing_if = "Option::is_none")]
    basis: Option<RuleBook>,
    changed: BTreeMap<String, f64>,
}

impl From<&rules::RuleSet> for Rules {
    fn from(set: &rules::RuleSet) -> Self {
        let changed = set.changed.iter();
        Self {
            book: set.book.into(),
            own: (set.own != set.has_own_limits()).then_some(set.own),
            basis: (set.basis != set.book).then(|| set.basis.into()),
            changed: changed.map(|(id, v)| (id.key().to_string(), *v)).collect(),
        }
    }
}

/// When each part of the job is due; not there where nothing is settled.
#[derive(Serialize, Deserialize)]
pub(super) struct Dates {
    #[serde(default, skip_serializing_if = "String::is_empty")]
    drill: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pull: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    cover: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    trim_out: String,
}

impl From<&plan::Dates> for Dates {
    fn from(dates: &plan::Dates) -> Self {
        Self {
            drill: dates.drill.clone(),
            pull: dates.pull.clone(),
            cover: dates.cover.clone(),
            trim_out: dates.trim_out.clone(),
        }
    }
}

impl From<Dates> for plan::Dates {
    fn from(dates: Dates) -> Self {
        Self {
            drill: dates.drill,
            pull: dates.pull,
            cover: dates.cover,
            trim_out: dates.trim_out,
        }
    }
}

/// Cables and bits.
#[derive(Serialize)]
pub(super) struct Catalogue {
    cables: Vec<CableSpec>,
    bits: Vec<f64>,
}

#[derive(Serialize, Deserialize)]
struct CableSpec {
    name: String,
    letter: char,
    diameter: f64,
    #[serde(default, skip_serializing_if = "is_false")]
    outdoor: bool,
    /// Left out where the name says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    twisted_pair: Option<bool>,
    reel: i32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    part_reels: Vec<i32>,
    #[serde(default, skip_serializing_if = "is_zero")]
    on_hand: u16,
}

impl From<&plan::Catalogue> for Catalogue {
    fn from(catalogue: &plan::Catalogue) -> Self {
        Self {
            cables: catalogue.cables.iter().map(Into::into).collect(),
            bits: catalogue.bits.iter().map(|bit| bit.0).collect(),
        }
    }
}

impl From<&plan::CableSpec> for CableSpec {
    fn from(spec: &plan::CableSpec) -> Self {
        let told = spec.twisted_pair != plan::CableSpec::is_usually_twisted_pair(&spec.name);
        Self {
            name: spec.name.clone(),
            letter: spec.letter,
            diameter: spec.diameter.0,
            outdoor: spec.outdoor,
            twisted_pair: told.then_some(spec.twisted_pair),
            reel: spec.reel.0,
            part_reels: spec.part_reels.iter().map(|reel| reel.0).collect(),
            on_hand: spec.on_hand,
        }
    }
}

impl From<CableSpec> for plan::CableSpec {
    fn from(spec: CableSpec) -> Self {
        let usually = plan::CableSpec::is_usually_twisted_pair(&spec.name);
        Self {
            twisted_pair: spec.twisted_pair.unwrap_or(usually),
            name: spec.name,
            letter: spec.letter,
            diameter: Size(spec.diameter),
            outdoor: spec.outdoor,
            reel: Mm(spec.reel),
            part_reels: spec.part_reels.into_iter().map(Mm).collect(),
            on_hand: spec.on_hand,
        }
    }
}

/// A finding set aside.
#[derive(Serialize, Deserialize)]
pub(super) struct Dismissal {
    key: String,
    reason: String,
}

impl From<&plan::Dismissal> for Dismissal {
    fn from(dismissal: &plan::Dismissal) -> Self {
        Self {
            key: dismissal.key.clone(),
            reason: dismissal.reason.clone(),
        }
    }
}

impl From<Dismissal> for plan::Dismissal {
    fn from(dismissal: Dismissal) -> Self {
        Self {
            key: dismissal.key,
            reason: dismissal.reason,
        }
    }
}

/// The number the next thing of each kind gets.
#[derive(Serialize, Deserialize)]
pub(super) struct Numbers {
    level: u32,
    wall: u32,
    opening: u32,
    room: u32,
    keep_out: u32,
    power_run: u32,
    drop: u32,
    cable: u32,
}

impl From<plan::Numbers> for Numbers {
    fn from(next: plan::Numbers) -> Self {
        let plan::Numbers {
            level,
            wall,
            opening,
            room,
            keep_out,
            power_run,
            drop,
            cable,
        } = next;
        Self {
            level,
            wall,
            opening,
            room,
            keep_out,
            power_run,
            drop,
            cable,
        }
    }
}

impl From<Numbers> for plan::Numbers {
    fn from(next: Numbers) -> Self {
        let Numbers {
            level,
            wall,
            opening,
            room,
            keep_out,
            power_run,
            drop,
            cable,
        } = next;
        Self {
            level,
            wall,
            opening,
            room,
            keep_out,
            power_run,
            drop,
            cable,
        }
    }
}

/// Reads the settings of a document into a plan.
pub(super) fn read(plan: &mut Plan, fields: &Fields, losses: &mut Losses) {
    let rules = fields.object("rules", "The choice of rules", losses);
    read_rules(&mut plan.rules, &rules, losses);
    let catalogue = fields.object("catalogue", "The catalogue", losses);
    read_catalogue(&mut plan.catalogue, &catalogue, losses);
    let list = List {
        key: "dismissed",
        name: "Finding set aside",
        of: "",
        most: MANY,
    };
    plan.dismissed = from(fields.list::<Dismissal>(&list, losses));
    if let Some(next) = fields.one::<Numbers>("next", "The next numbers", losses) {
        plan.next = next.into();
    }
}

fn read_rules(set: &mut rules::RuleSet, fields: &Fields, losses: &mut Losses) {
    if let Some(book) = fields.one::<RuleBook>("book", "The rule book", losses) {
        set.book = book.into();
    }
    let basis = fields.one::<RuleBook>("basis", "The book of your own rules", losses);
    set.basis = basis.map_or(set.book, Into::into);
    let changed = fields.object("changed", "The list of own figures", losses);
    for &id in RuleId::ALL {
        let name = set.book.rule(id).name;
        let what = format!("Your own figure for \u{201c}{name}\u{201d}");
        if let Some(value) = changed.one::<f64>(id.key(), &what, losses) {
            set.changed.insert(id, value);
        }
    }
    let own = fields.one::<bool>("own", "The choice of your own rules", losses);
    set.own = own.unwrap_or_else(|| set.has_own_limits());
    for key in changed.keys() {
        if RuleId::ALL.iter().all(|id| id.key() != key) {
            let key = tidy_line(key);
            losses.say(format!(
                "There is no rule \u{201c}{key}\u{201d}; its figure was left out."
            ));
        }
    }
}

fn read_catalogue(catalogue: &mut plan::Catalogue, fields: &Fields, losses: &mut Losses) {
    let list = |key, name, most| List {
        key,
        name,
        of: " of the catalogue",
        most,
    };
    // Kinds are known by their place: one that cannot be read leaves its place to a stand-in.
    let kinds = list("cables", "Cable", 1000);
    if let Some(cables) = fields.places::<CableSpec>(&kinds, losses) {
        let usual = plan::Catalogue::default();
        let kind = |(place, spec): (usize, Option<CableSpec>)| match spec {
            Some(spec) => spec.into(),
            None => mend::stand_in(&usual, place),
        };
        catalogue.cables = cables.into_iter().enumerate().map(kind).collect();
    }
    if fields.has("bits") {
        let bits = fields.list::<f64>(&list("bits", "Bit", 1000), losses);
        catalogue.bits = bits.into_iter().map(Size).collect();
    }
}
