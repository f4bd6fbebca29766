//! Figures of the model residential and electrical codes of the United States.

use super::{Rule, RuleId, Source, Trust, Unit};

const IRC: &str = "IRC 2018";
const NEC: &str = "NEC 2020";
const INCH: f64 = 25.4;

/// The published figure, or `None` where this book is silent and practice speaks.
pub(super) fn rule(id: RuleId) -> Option<Rule> {
    use Trust::{Memory, Read};
    use Unit::{Count, Millimetre, Percent};
    let (value, unit, name, document, section, trust) = match id {
        RuleId::StudBearingBore => (
            40.0,
            Percent,
            "bore in a bearing stud, of its width",
            IRC,
            "R602.6 item 2",
            Read,
        ),
        RuleId::StudOtherBore => (
            60.0,
            Percent,
            "bore in a non-bearing stud, of its width",
            IRC,
            "R602.6 item 2",
            Read,
        ),
        RuleId::StudDoubledBore => (
            60.0,
            Percent,
            "bore in doubled bearing studs, of their width",
            IRC,
            "R602.6 item 2",
            Read,
        ),
        RuleId::StudDoubledRow => (
            2.0,
            Count,
            "successive doubled studs so bored",
            IRC,
            "R602.6 item 2",
            Read,
        ),
        RuleId::StudEdge => (
            0.625 * INCH,
            Millimetre,
            "wood between a stud's bore and its edge",
            IRC,
            "R602.6 item 2",
            Read,
        ),
        RuleId::PlateTie => (
            50.0,
            Percent,
            "bore in a top plate, of its width, before it needs a tie",
            "IRC 2018",
            "R602.6.1",
            Read,
        ),
        RuleId::JoistBore => (
            100.0 / 3.0,
            Percent,
            "bore in a joist, of its depth",
            "IRC 2021",
            "R502.8.1",
            Read,
        ),
        RuleId::JoistEdge => (
            2.0 * INCH,
            Millimetre,
            "wood between a joist's bore and its edges",
            "IRC 2021",
            "R502.8.1",
            Read,
        ),
        RuleId::JoistSpacing => (
            2.0 * INCH,
            Millimetre,
            "wood between two bores of a joist",
            "IRC 2021",
            "R502.8.1",
            Read,
        ),
        RuleId::SetBack => (
            1.25 * INCH,
            Millimetre,
            "wood in front of a bore without a nail plate (written for power wiring; practice for data)",
            NEC,
            "300.4(A)(1)",
            Read,
        ),
        RuleId::FillOne => (
            53.0,
            Percent,
            "fill with one cable (borrowed from raceways)",
            NEC,
            "Chapter 9 Table 1",
            Read,
        ),
        RuleId::FillTwo => (
            31.0,
            Percent,
            "fill with two cables (borrowed from raceways)",
            NEC,
            "Chapter 9 Table 1",
            Read,
        ),
        RuleId::FillMore => (
            40.0,
            Percent,
            "fill with three cables or more (borrowed from raceways)",
            NEC,
            "Chapter 9 Table 1",
            Read,
        ),
        RuleId::PowerWarn => (
            2.0 * INCH,
            Millimetre,
            "distance from power cable (not asked beside non-metallic sheathed cable; practice keeps it)",
            NEC,
            "805.133(A)(2)",
            Memory,
        ),
        RuleId::Support => (
            54.0 * INCH,
            Millimetre,
            "stretch of cable without a support (written for power cable)",
            NEC,
            "334.30",
            Read,
        ),
        _ => return None,
    };
    Some(Rule {
        value,
        unit,
        name,
        source: Source {
            document,
            section,
            trust,
        },
    })
}
