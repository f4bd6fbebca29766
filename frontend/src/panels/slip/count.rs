//! What makes a number of the tally, and where: a list, each line of which leads to its place.

use borewright_core::bore::DrillRow;
use borewright_core::desk::{Choice, Session};
use borewright_core::plan::{CableKindId, Drop};
use borewright_core::schedule::{Cut, Reel};
use borewright_core::units::counted;
use yew::prelude::*;

use super::Head;
use crate::drawing::drop_words;
use crate::hooks::{use_act, use_desk};
use crate::panels::best::{self, BestPresses};
use crate::parts::{Fact, Facts, Figures};
use crate::state::{Act, Count, Leaf, Visit};

/// Which number.
#[derive(Properties, PartialEq)]
pub struct CountSlipProps {
    /// The number.
    pub count: Count,
}

/// So many lines are shown at most.
pub const MOST_LINES: usize = 300;

/// One line of what makes a number.
#[derive(Clone, PartialEq)]
struct Line {
    name: String,
    words: String,
    choice: Option<Choice>,
}

/// The list behind a number.
#[component]
pub fn CountSlip(props: &CountSlipProps) -> Html {
    let desk = use_desk();
    let session = &desk.session;
    let (title, lines) = match props.count {
        Count::Drops => ("Drops".to_string(), drops(session)),
        Count::Cable(kind) => (cable_name(session, kind), cuts(session, kind)),
        Count::Reels => ("Reels".to_string(), reels(session)),
        Count::Bores => ("Bores".to_string(), bores(session, |_| true)),
        Count::Plates => (
            "Nail plates".to_string(),
            bores(session, |row| row.nail_plates > 0),
        ),
        Count::Hours | Count::Best => return html! { <Work count={props.count} /> },
    };
    let empty = lines.is_empty();
    let more = lines.len().saturating_sub(MOST_LINES);
    let count = props.count;
    html! {
        <>
            <Head {title} line={if empty { "Nothing yet." } else { "Tap a line to go there." }} />
            { by_bit(session, count) }
            <ul class="List">
                { for lines.into_iter().take(MOST_LINES).enumerate().map(|(place, line)| html! { <CountLine key={place} {line} {count} /> }) }
            </ul>
            if more > 0 { <p class="Quiet">{ format!("And {more} more; the lists as files hold all of them.") }</p> }
        </>
    }
}

#[derive(Properties, PartialEq)]
struct CountLineProps {
    line: Line,
    count: Count,
}

#[component]
fn CountLine(props: &CountLineProps) -> Html {
    let desk = use_desk();
    let (choice, count) = (props.line.choice, props.count);
    let at = choice.and_then(|choice| desk.session.position(choice));
    let onclick = use_act(move |_: MouseEvent| {
        Act::Visit(Visit {
            choice,
            leaf: Some(Leaf::Count(count)),
            at,
        })
    });
    let chosen = (choice.is_some() && desk.session.chosen == choice).to_string();
    html! {
        <li>
            <button type="button" class="ListLine" aria-pressed={chosen} disabled={choice.is_none()} {onclick}>
                <b>{ &props.line.name }</b>
                <span><Figures text={props.line.words.clone()} /></span>
            </button>
        </li>
    }
}

fn drops(session: &Session) -> Vec<Line> {
    let plan = session.shown_plan();
    let line = |drop: &Drop| {
        let words = drop_words(plan, drop);
        let words = words
            .split_once(' ')
            .map_or(words.clone(), |(_, rest)| rest.to_string());
        let words = format!("{words}, {}", counted(drop.cables.len(), "cable"));
        Line {
            name: drop.label(),
            words,
            choice: Some(Choice::Drop(drop.id)),
        }
    };
    plan.drops.iter().map(line).collect()
}

fn cable_name(session: &Session, kind: u16) -> String {
    let spec = session.shown_plan().catalogue.cable(CableKindId(kind));
    spec.map_or_else(|| String::from("Cable"), |spec| spec.name.clone())
}

fn cuts(session: &Session, kind: u16) -> Vec<Line> {
    let (plan, design) = (session.shown_plan(), session.shown_design());
    let of_kind = design.cut_list.cuts.iter().filter(|cut| cut.kind.0 == kind);
    let line = |cut: &Cut| Line {
        name: plan.cable_label(cut.cable),
        words: plan.units.total(cut.length),
        choice: Some(Choice::Cable(cut.cable)),
    };
    of_kind.map(line).collect()
}

fn reels(session: &Session) -> Vec<Line> {
    let (plan, design) = (session.shown_plan(), session.shown_design());
    let line = |(place, reel): (usize, &Reel)| {
        let cuts = design
            .cut_list
            .cuts
            .iter()
            .filter(|cut| cut.reel == Some(place))
            .count();
        let words = format!(
            "{}, {} left",
            counted(cuts, "cable"),
            plan.units.total(reel.left)
        );
        Line {
            name: reel.name.clone(),
            words,
            choice: None,
        }
    };
    design.cut_list.reels.iter().enumerate().map(line).collect()
}

fn bores(session: &Session, is_meant: impl Fn(&DrillRow) -> bool) -> Vec<Line> {
    let plan = session.shown_plan();
    let line = |row: &DrillRow| Line {
        name: row.number.to_string(),
        words: format!(
            "{}, {}, {}",
            row.what,
            plan.units.size(row.bit),
            row.location
        ),
        choice: Some(Choice::Bore(row.number)),
    };
    session
        .shown_design()
        .drill_list
        .iter()
        .filter(|row| is_meant(row))
        .map(line)
        .collect()
}

/// Holes by bit, above the list of bores.
fn by_bit(session: &Session, count: Count) -> Html {
    if count != Count::Bores {
        return html! {};
    }
    let units = session.shown_plan().units;
    let bits = session.shown_design().totals.by_bit.iter();
    let fact = |(size, holes): &(borewright_core::units::Size, u32)| {
        html! { <Fact key={size.micrometres().to_string()} name={format!("{} bit", units.size(*size))} value={holes.to_string()} /> }
    };
    html! { <Facts>{ for bits.map(fact) }</Facts> }
}

#[derive(Properties, PartialEq)]
struct WorkProps {
    count: Count,
}

/// What the hours are made of, and how they compare with the best possible.
#[component]
fn Work(props: &WorkProps) -> Html {
    let desk = use_desk();
    let design = desk.session.shown_design();
    let totals = &design.totals;
    let line = match props.count {
        Count::Best => best::sentence(&desk),
        _ => String::from("From your own minutes a piece, set under Job, Settings."),
    };
    let title = if props.count == Count::Best {
        "Best possible"
    } else {
        "Hours"
    };
    html! {
        <>
            <Head {title} {line} />
            if props.count == Count::Best { <BestPresses /> }
            <Facts>
                <Fact name="Hours" value={format!("{:.1}", totals.hours)} />
                <Fact name="Bores" value={totals.bores.to_string()} />
                <Fact name="Nail plates and ties" value={(totals.nail_plates + totals.ties).to_string()} />
                <Fact name="Seals" value={totals.seals.to_string()} />
                <Fact name="Supports" value={totals.supports.to_string()} />
                <Fact name="Cables to pull, label, test" value={totals.cables.to_string()} />
                <Fact name="Brackets" value={totals.brackets.iter().sum::<u32>().to_string()} />
                <Fact name="Jacks" value={totals.keystones.to_string()} />
            </Facts>
        </>
    }
}
