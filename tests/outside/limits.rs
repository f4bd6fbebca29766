//! Published limits against the rule sets: dressed sizes, stud and joist
//! bores, edges, set-back, fill, and the permanent link. Rows, with document, edition and section,
//! are in `limits.json`.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop at the first surprise"
)]

use borewright_core::plan::Lumber;
use borewright_core::rules::{RuleBook, RuleId, RuleSet};
use borewright_core::units::{Size, Units};

fn published(id: &str) -> serde_json::Value {
    let path = format!("{}/outside/limits.json", env!("CARGO_MANIFEST_DIR"));
    let rows: serde_json::Value = serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap();
    let row = rows
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["id"] == id)
        .cloned();
    row.unwrap_or_else(|| panic!("no published row {id}"))
}

fn text(id: &str) -> String {
    match &published(id)["value"] {
        serde_json::Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// The first number of a row, as it is written.
fn number(id: &str) -> f64 {
    let text = text(id);
    let digits: String = text
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    digits.parse().unwrap()
}

fn value(rule: RuleId) -> f64 {
    RuleSet::default().value(rule)
}

/// PS 20 American Softwood Lumber Standard, size table, dry.
#[test]
fn lumber_is_as_wide_as_dressed() {
    for (row, lumber) in [
        ("ps20.4", Lumber::TwoByFour),
        ("ps20.6", Lumber::TwoBySix),
        ("ps20.8", Lumber::TwoByEight),
    ] {
        let dry = text(row);
        let dry = dry.split('/').take(2).collect::<Vec<_>>().join("/");
        let dry = dry
            .rsplit_once(" /")
            .map_or(dry.clone(), |(first, _)| first.to_string());
        let shown = Units::Imperial.size(lumber.width());
        assert_eq!(shown.trim_end_matches(" in"), dry.trim(), "{row}");
    }
    assert!(text("ps20.2").starts_with("1-1/2"));
    assert_eq!(Units::Imperial.size(Lumber::THICKNESS), "1-1/2 in");
}

/// IRC R602.6 and R602.6.1: shares of a stud's and a plate's width, and the edge.
#[test]
fn shares_and_edges_are_those_of_the_model_code() {
    assert_eq!(
        value(RuleId::StudBearingBore),
        number("irc.stud.bearing.hole_single")
    );
    assert_eq!(
        value(RuleId::StudOtherBore),
        number("irc.stud.nonbearing.hole")
    );
    assert_eq!(
        value(RuleId::StudOtherBore),
        number("irc.stud.hole.max_any")
    );
    assert_eq!(value(RuleId::PlateTie), number("irc.plate.trigger"));
    assert!((value(RuleId::StudEdge) / 25.4 - number("irc.stud.edge")).abs() < 1e-9);
    assert!((value(RuleId::JoistEdge) / 25.4 - number("irc.joist.hole_edge")).abs() < 1e-9);
}

/// IRC R602.6 worked out for dressed sizes: the limit shown is never above the published one.
/// A row lists notch 25 %, bore 40 %, notch 40 %, bore 60 %, plate 50 % and the set-back bore.
#[test]
fn stud_limits_are_the_published_ones() {
    for (row, inches) in [
        ("calc.stud.2x4", 3.5),
        ("calc.stud.2x6", 5.5),
        ("calc.stud.2x8", 7.25),
    ] {
        let row = text(row);
        let published: Vec<&str> = row.split(';').map(str::trim).collect();
        let width = Size::inches(inches);
        let rules = RuleSet::default();
        let shown = |size| {
            Units::Imperial
                .limit(size)
                .trim_end_matches(" in")
                .to_string()
        };
        assert_eq!(shown(rules.stud_limit(width, true, false)), published[1]);
        assert_eq!(shown(rules.stud_limit(width, false, false)), published[3]);
        assert_eq!(shown(rules.plate_limit(width)), published[4]);
        let set_back = Size(width.0 - 2.0 * value(RuleId::SetBack));
        assert_eq!(shown(set_back), published[5]);
    }
}

/// IRC R502.8.1: a third of the depth, and 2 in from both edges; a 2x12 allows exactly 3-3/4 in.
#[test]
fn joist_limits_are_the_published_ones() {
    for (row, inches) in [
        ("calc.joist.2x6", 5.5),
        ("calc.joist.2x8", 7.25),
        ("calc.joist.2x10", 9.25),
        ("calc.joist.2x12", 11.25),
    ] {
        let published = text(row);
        let limit = Units::Imperial.limit(RuleSet::default().joist_limit(Size::inches(inches)));
        let limit = limit.trim_end_matches(" in");
        assert!(
            published.starts_with(limit),
            "{row}: {limit} not {published}"
        );
    }
}

/// EN 50174-2, separation and power factor tables as printed in a handbook of 2017: unscreened
/// cable without a barrier asks for 100 mm times the factor of the circuits. The handbook's own
/// worked example is 20 mm beside up to three circuits and 40 mm beside five.
#[test]
fn the_kingdom_keeps_the_printed_distance_from_power() {
    let kingdom = RuleSet::of(RuleBook::UnitedKingdom);
    let base = number("en50174.S.b");
    assert_eq!(kingdom.value(RuleId::PowerSegregation), base);
    let factors = text("en50174.P");
    let factors = factors
        .split(';')
        .map(|factor| factor.trim().parse::<f64>().unwrap());
    let most = [3, 6, 9, 12, 15, 30, 45, 60, 75, 76];
    for (circuits, factor) in most.into_iter().zip(factors) {
        let asked = kingdom.power_distance(circuits);
        assert!((asked.0 - base * factor).abs() < 1e-9, "{circuits}");
    }
    let worked: Vec<f64> = [3, 5].map(|n| kingdom.power_distance(n).0).to_vec();
    let printed = text("en50174.ex");
    let printed: Vec<f64> = printed
        .split(';')
        .map(|figure| figure.trim().parse().unwrap())
        .collect();
    assert_eq!(worked, printed);
}

/// The reference has no figure for timber in these countries, so none may be shown as published.
#[test]
fn no_limit_of_timber_is_claimed_where_none_was_read() {
    let timber = [
        RuleId::StudBearingBore,
        RuleId::StudOtherBore,
        RuleId::StudDoubledBore,
        RuleId::StudEdge,
        RuleId::PlateTie,
        RuleId::JoistBore,
        RuleId::JoistEdge,
        RuleId::JoistSpacing,
        RuleId::SetBack,
    ];
    for book in RuleBook::ALL.iter().skip(1) {
        for id in timber {
            let words = book.rule(id).source.words();
            assert!(words.starts_with("common practice, no source (no figure"));
            assert!(words.contains(book.name()), "{words}");
        }
    }
}

/// NEC 300.4(D): 1-1/4 in of wood; written for power wiring, practice for data.
#[test]
fn set_back_holds_with_equality() {
    assert!((value(RuleId::SetBack) / 25.4 - number("nec.300_4d")).abs() < 1e-9);
    let left = Size((Lumber::TwoByFour.width().0 - Size::inches(1.0).0) / 2.0);
    assert!(Size(value(RuleId::SetBack)).within(left));
    let left = Size((Lumber::TwoByFour.width().0 - Size::inches(1.125).0) / 2.0);
    assert!(!Size(value(RuleId::SetBack)).within(left));
}

/// NEC Chapter 9 Table 1, borrowed from raceways, and ANSI/TIA-568 for the permanent link.
#[test]
fn fill_and_link_are_the_published_ones() {
    let fills = [RuleId::FillOne, RuleId::FillTwo, RuleId::FillMore].map(value);
    let published: Vec<f64> = text("nec.ch9t1")
        .split(';')
        .map(|fill| fill.trim().parse().unwrap())
        .collect();
    assert_eq!(fills.to_vec(), published);
    assert_eq!(value(RuleId::LinkLength), number("tia568.link") * 1000.0);
}
