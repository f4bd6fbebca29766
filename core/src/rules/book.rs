//! Which rules there are, and which published book their figures come from.

use strum::VariantArray;

use super::{Rule, Source, Trust, practice, united_kingdom, united_states};

macro_rules! rules {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {
        /// One limit or default.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum RuleId { $($(#[$doc])* $name),* }

        impl RuleId {
            /// Every rule, in the order a list shows them.
            pub const ALL: &'static [RuleId] = &[$(RuleId::$name),*];

            /// The name a saved plan knows it by; never changes.
            pub fn key(self) -> &'static str {
                match self { $(RuleId::$name => stringify!($name)),* }
            }
        }
    };
}

rules! {
    /// Largest bore in a bearing or exterior stud, per cent of its width.
    StudBearingBore,
    /// Largest bore in any other stud, per cent of its width.
    StudOtherBore,
    /// Largest bore in doubled bearing studs, per cent of their width.
    StudDoubledBore,
    /// Most successive doubled studs bored beyond the single limit.
    StudDoubledRow,
    /// Least wood between a stud's bore and its edge, millimetres.
    StudEdge,
    /// A plate bored beyond this share of its width gets a tie, per cent.
    PlateTie,
    /// Largest bore in a joist, per cent of its depth.
    JoistBore,
    /// Least wood between a joist's bore and its edges, millimetres.
    JoistEdge,
    /// Least wood between two bores of a joist, millimetres.
    JoistSpacing,
    /// Wood in front of a bore that needs no nail plate, millimetres.
    SetBack,
    /// Fill of a bore, per cent of its area.
    Fill,
    /// Whether fill goes by the number of cables, as in raceways: 0 no, 1 yes.
    FillByCount,
    /// Fill with one cable where fill goes by count, per cent.
    FillOne,
    /// Fill with two cables where fill goes by count, per cent.
    FillTwo,
    /// Fill with three cables or more where fill goes by count, per cent.
    FillMore,
    /// Room for pulling beyond the tightest bundle, millimetres of diameter.
    PullingRoom,
    /// Least wood between two of our bores in one stud or plate, millimetres.
    BoreSpacing,
    /// Longest permanent link of balanced twisted pair, millimetres.
    LinkLength,
    /// Power cable nearer than this stops a way, millimetres.
    PowerStop,
    /// Power cable nearer than this is warned of, millimetres.
    PowerWarn,
    /// Power cable parallel within this is noted, millimetres.
    PowerParallel,
    /// ... where it runs along for more than this, millimetres.
    PowerParallelRun,
    /// Whether the distance from power grows with its circuits: 0 no, 1 yes.
    PowerByCircuits,
    /// Distance from power at factor one where it grows with the circuits, millimetres.
    PowerSegregation,
    /// Longest stretch of cable without a support, millimetres.
    Support,
    /// Height of an outlet, centre, millimetres above the finished floor.
    OutletHeight,
    /// Height of a television point, millimetres above the finished floor.
    TelevisionHeight,
    /// Height of a wall access point, millimetres above the finished floor.
    AccessPointHeight,
    /// Height of a camera, millimetres above the finished floor.
    CameraHeight,
    /// How far the eaves reach out, millimetres: 0 where the roof ends at the wall.
    EaveOverhang,
    /// Height of a doorbell, millimetres above the finished floor.
    DoorbellHeight,
    /// Height of a closet's panel, millimetres above the finished floor.
    PanelHeight,
    /// Height of a wall's lane unless something is in its way, millimetres above the finished floor.
    LaneHeight,
    /// Slack at the closet, millimetres a cable.
    SlackCloset,
    /// Slack at an outlet's box, millimetres a cable.
    SlackBox,
    /// Slack at a television point, millimetres a cable.
    SlackTelevision,
    /// Slack at an access point, millimetres a cable.
    SlackAccessPoint,
    /// Slack at a camera, millimetres a cable.
    SlackCamera,
    /// Waste on the run, per cent.
    Waste,
    /// Minutes to bore one stud or joist.
    BoreMinutes,
    /// Minutes to bore a corner or tee of several studs.
    CornerMinutes,
    /// Minutes to look up in its maker's chart where an I-joist may be bored.
    ChartMinutes,
    /// Minutes to bore plates from below.
    PlateMinutes,
    /// Minutes to bore out through a sheathed outside wall.
    OutsideMinutes,
    /// Minutes to seal one bore.
    SealMinutes,
    /// Minutes to nail one steel plate or tie.
    NailPlateMinutes,
    /// Minutes to fix one support.
    SupportMinutes,
    /// Minutes to pull one metre of one cable.
    PullMinutes,
    /// Minutes to set one box or bracket.
    BoxMinutes,
    /// Minutes to cut one piece of blocking for a box and nail it between two studs.
    BlockingMinutes,
    /// Minutes to label and tuck one cable end.
    LabelMinutes,
    /// Minutes to terminate and test one cable.
    TerminateMinutes,
    /// Price of one metre of cable, money.
    CablePrice,
    /// Price of an hour, money.
    HourPrice,
    /// What cable counts, of its work and price, where it runs along power nearer than is noted, per cent.
    BesidePower,
    /// How far a measured cable may be off its planned length, per cent of it.
    MeasuredShare,
    /// ... or by this, whichever is more, millimetres.
    MeasuredLength,
}

/// A published set of figures. A book stays as it is once it is released, so that a plan goes on
/// being computed with what it was drawn with; a new edition is a new book.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum RuleBook {
    /// Model residential and electrical codes of the United States.
    #[default]
    UnitedStates,
    /// Canada, of whose codes no figure was read.
    Canada,
    /// The United Kingdom: separation from power was read, the limits of timber were not.
    UnitedKingdom,
    /// Australia and New Zealand, of whose codes no figure was read.
    AustraliaNewZealand,
}

impl RuleBook {
    /// Every book, in the order a list shows them.
    pub const ALL: &'static [Self] = Self::VARIANTS;

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::UnitedStates => "United States, model codes",
            Self::Canada => "Canada",
            Self::UnitedKingdom => "United Kingdom",
            Self::AustraliaNewZealand => "Australia and New Zealand",
        }
    }

    /// The published rule; common practice, which says so, where the book has no figure.
    pub fn rule(self, id: RuleId) -> Rule {
        self.published(id).unwrap_or_else(|| self.practised(id))
    }

    /// The figure this book itself has for a rule.
    pub fn published(self, id: RuleId) -> Option<Rule> {
        match self {
            Self::UnitedStates => united_states::rule(id),
            Self::UnitedKingdom => united_kingdom::rule(id),
            Self::Canada | Self::AustraliaNewZealand => None,
        }
    }

    /// Common practice, named as the stand-in for a figure that a reader of this book expects.
    fn practised(self, id: RuleId) -> Rule {
        let rule = practice::rule(id);
        let expected = id.is_limit() && RuleBook::UnitedStates.published(id).is_some();
        if !expected || rule.source.trust != Trust::Practice {
            return rule;
        }
        let source = Source {
            document: self.name(),
            ..rule.source
        };
        Rule { source, ..rule }
    }
}

impl RuleId {
    /// Whether it is a limit a rule book speaks of, rather than the crew's own choice, height,
    /// slack or rate, which stay the same under every book.
    pub fn is_limit(self) -> bool {
        self <= RuleId::Support && !self.is_choice()
    }

    /// What the crew chooses about its bores whatever the book.
    fn is_choice(self) -> bool {
        matches!(self, Self::Fill | Self::FillByCount | Self::PullingRoom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_book_without_a_figure_says_that_practice_stands_in() {
        let words = |book: RuleBook, id| book.rule(id).source.words();
        for id in [RuleId::StudBearingBore, RuleId::JoistBore, RuleId::SetBack] {
            assert_eq!(
                words(RuleBook::Canada, id),
                "common practice, no source (no figure was read for Canada)"
            );
        }
        assert!(words(RuleBook::UnitedKingdom, RuleId::PowerSegregation).contains("EN 50174-2"));
        assert_eq!(
            words(RuleBook::Canada, RuleId::LaneHeight),
            "common practice, no source"
        );
    }

    /// Where practice stands in for a limit of timber, it is never looser than a book that was
    /// read.
    #[test]
    fn practice_is_the_cautious_one() {
        for id in [
            RuleId::StudBearingBore,
            RuleId::StudOtherBore,
            RuleId::StudDoubledBore,
            RuleId::JoistBore,
        ] {
            let read = RuleBook::UnitedStates.rule(id).value;
            assert!(RuleBook::Canada.rule(id).value < read, "{id:?}");
        }
        for id in [RuleId::StudEdge, RuleId::JoistEdge, RuleId::SetBack] {
            let read = RuleBook::UnitedStates.rule(id).value;
            assert!(RuleBook::Canada.rule(id).value >= read, "{id:?}");
        }
    }

    #[test]
    fn the_crew_chooses_its_fill_under_every_book() {
        assert!(!RuleId::Fill.is_limit() && !RuleId::FillByCount.is_limit());
        assert!(RuleId::StudEdge.is_limit() && RuleId::Support.is_limit());
        assert!(!RuleId::OutletHeight.is_limit() && !RuleId::HourPrice.is_limit());
    }
}
