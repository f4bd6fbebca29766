//! Figures of common practice and of cabling standards, which hold in every book until a person
//! changes them. Limits of timber are on the cautious side: they stand in where nothing was read.

use super::{Rule, RuleId, Source, Trust, Unit};

const INCH: f64 = 25.4;
const FOOT: f64 = 304.8;

/// The figure where no book speaks.
pub(super) fn rule(id: RuleId) -> Rule {
    let (value, unit, name) = figure(id);
    Rule {
        value,
        unit,
        name,
        source: source(id),
    }
}

fn source(id: RuleId) -> Source {
    match id {
        RuleId::LinkLength => Source {
            document: "ANSI/TIA-568.2-D",
            section: "permanent link",
            trust: Trust::Read,
        },
        RuleId::Fill => Source {
            document: "ANSI/TIA-569-E conduit fill, borrowed for bare bores",
            section: "",
            trust: Trust::Memory,
        },
        _ => Source {
            document: "",
            section: "",
            trust: Trust::Practice,
        },
    }
}

fn figure(id: RuleId) -> (f64, Unit, &'static str) {
    limit(id)
        .or_else(|| height(id))
        .or_else(|| slack(id))
        .or_else(|| measured(id))
        .unwrap_or_else(|| work(id))
}

fn limit(id: RuleId) -> Option<(f64, Unit, &'static str)> {
    use Unit::{Count, Millimetre, Percent};
    Some(match id {
        RuleId::StudBearingBore => (25.0, Percent, "bore in a bearing stud, of its width"),
        RuleId::StudOtherBore => (40.0, Percent, "bore in a non-bearing stud, of its width"),
        RuleId::StudDoubledBore => (
            40.0,
            Percent,
            "bore in doubled bearing studs, of their width",
        ),
        RuleId::StudDoubledRow => (2.0, Count, "successive doubled studs so bored"),
        RuleId::StudEdge => (16.0, Millimetre, "wood between a stud's bore and its edge"),
        RuleId::PlateTie => (
            50.0,
            Percent,
            "bore in a top plate, of its width, before it needs a tie",
        ),
        RuleId::JoistBore => (25.0, Percent, "bore in a joist, of its depth"),
        RuleId::JoistEdge => (
            2.0 * INCH,
            Millimetre,
            "wood between a joist's bore and its edges",
        ),
        RuleId::JoistSpacing => (2.0 * INCH, Millimetre, "wood between two bores of a joist"),
        RuleId::SetBack => (
            32.0,
            Millimetre,
            "wood in front of a bore without a nail plate",
        ),
        RuleId::Fill => (
            40.0,
            Percent,
            "fill of a bore (no rule exists for bare wood)",
        ),
        RuleId::FillByCount => (0.0, Count, "fill by number of cables: 0 no, 1 yes"),
        RuleId::FillOne => (53.0, Percent, "fill with one cable"),
        RuleId::FillTwo => (31.0, Percent, "fill with two cables"),
        RuleId::FillMore => (40.0, Percent, "fill with three cables or more"),
        RuleId::PullingRoom => (
            3.0,
            Millimetre,
            "room for pulling beyond the tightest bundle",
        ),
        RuleId::BoreSpacing => (2.0 * INCH, Millimetre, "wood between two of our bores"),
        RuleId::LinkLength => (90_000.0, Millimetre, "permanent link"),
        RuleId::PowerStop => (
            INCH,
            Millimetre,
            "distance from power cable that stops a way",
        ),
        RuleId::PowerWarn => (2.0 * INCH, Millimetre, "distance from power cable"),
        RuleId::PowerParallel => (
            12.0 * INCH,
            Millimetre,
            "distance from power cable running along",
        ),
        RuleId::PowerParallelRun => (
            5.0 * FOOT,
            Millimetre,
            "length that counts as running along",
        ),
        RuleId::PowerByCircuits => (
            0.0,
            Count,
            "distance from power by number of circuits: 0 no, 1 yes",
        ),
        RuleId::PowerSegregation => (
            100.0,
            Millimetre,
            "distance from power at factor one, where it goes by circuits",
        ),
        RuleId::Support => (
            54.0 * INCH,
            Millimetre,
            "stretch of cable without a support",
        ),
        _ => return None,
    })
}

fn height(id: RuleId) -> Option<(f64, Unit, &'static str)> {
    let (inches, name) = match id {
        RuleId::OutletHeight => (16.0, "height of an outlet, centre"),
        RuleId::TelevisionHeight => (60.0, "height of a television point, centre"),
        RuleId::AccessPointHeight => (84.0, "height of a wall access point, centre"),
        RuleId::CameraHeight => (108.0, "height of a camera"),
        RuleId::EaveOverhang => (12.0, "how far the eaves reach out"),
        RuleId::DoorbellHeight => (45.0, "height of a doorbell"),
        RuleId::PanelHeight => (60.0, "height of the panel, centre"),
        RuleId::LaneHeight => (24.0, "height of a lane: under most sills, over most boxes"),
        _ => return None,
    };
    Some((inches * INCH, Unit::Millimetre, name))
}

fn slack(id: RuleId) -> Option<(f64, Unit, &'static str)> {
    Some(match id {
        RuleId::SlackCloset => (10.0 * FOOT, Unit::Millimetre, "slack at the closet"),
        RuleId::SlackBox => (18.0 * INCH, Unit::Millimetre, "slack at a box"),
        RuleId::SlackTelevision => (4.0 * FOOT, Unit::Millimetre, "slack at a television point"),
        RuleId::SlackAccessPoint => (4.0 * FOOT, Unit::Millimetre, "slack at an access point"),
        RuleId::SlackCamera => (4.0 * FOOT, Unit::Millimetre, "slack at a camera"),
        RuleId::Waste => (5.0, Unit::Percent, "waste on the run"),
        _ => return None,
    })
}

/// What a tester reads and a path along framing hold between them: common practice, no source.
fn measured(id: RuleId) -> Option<(f64, Unit, &'static str)> {
    Some(match id {
        RuleId::MeasuredShare => (5.0, Unit::Percent, "measured length off the planned one"),
        RuleId::MeasuredLength => (
            3.0 * FOOT,
            Unit::Millimetre,
            "the same as a length, where that is more",
        ),
        _ => return None,
    })
}

fn work(id: RuleId) -> (f64, Unit, &'static str) {
    use Unit::{Minute, Money, Percent};
    match id {
        RuleId::BoreMinutes => (1.5, Minute, "to bore a stud or joist"),
        RuleId::CornerMinutes => (4.0, Minute, "to bore a corner or tee"),
        RuleId::ChartMinutes => (1.5, Minute, "to look a bore up in the maker's chart"),
        RuleId::PlateMinutes => (3.0, Minute, "to bore plates"),
        RuleId::OutsideMinutes => (6.0, Minute, "to bore out through an outside wall"),
        RuleId::SealMinutes => (2.0, Minute, "to seal a bore"),
        RuleId::NailPlateMinutes => (1.0, Minute, "to nail a plate or tie"),
        RuleId::SupportMinutes => (0.5, Minute, "to fix a support"),
        RuleId::PullMinutes => (0.25, Minute, "to pull a metre of cable"),
        RuleId::BoxMinutes => (5.0, Minute, "to set a box or bracket"),
        RuleId::BlockingMinutes => (4.0, Minute, "to cut and nail blocking for a box"),
        RuleId::LabelMinutes => (1.0, Minute, "to label and tuck a cable end"),
        RuleId::TerminateMinutes => (10.0, Minute, "to terminate and test a cable"),
        RuleId::BesidePower => (
            200.0,
            Percent,
            "what cable counts where it runs along power",
        ),
        RuleId::CablePrice => (0.6, Money, "for a metre of cable"),
        _ => (60.0, Money, "for an hour"),
    }
}
