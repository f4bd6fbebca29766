//! Which rules there are, and which published book their figures come from.

use super::{Rule, practice, united_states};

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
    /// Longest permanent link, millimetres.
    LinkLength,
    /// Power cable nearer than this stops a way, millimetres.
    PowerStop,
    /// Power cable nearer than this is warned of, millimetres.
    PowerWarn,
    /// Power cable parallel within this is noted, millimetres.
    PowerParallel,
    /// ... where it runs along for more than this, millimetres.
    PowerParallelRun,
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
    /// Minutes to label and tuck one cable end.
    LabelMinutes,
    /// Minutes to terminate and test one cable.
    TerminateMinutes,
    /// Price of one metre of cable, money.
    CablePrice,
    /// Price of an hour, money.
    HourPrice,
}

/// A published set of figures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuleBook {
    /// Model residential and electrical codes of the United States.
    #[default]
    UnitedStates,
}

impl RuleBook {
    /// Every book, in the order a list shows them.
    pub const ALL: &'static [RuleBook] = &[RuleBook::UnitedStates];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::UnitedStates => "United States, model codes",
        }
    }

    /// The published rule.
    pub fn rule(self, id: RuleId) -> Rule {
        let published = match self {
            Self::UnitedStates => united_states::rule(id),
        };
        published.unwrap_or_else(|| practice::rule(id))
    }
}
