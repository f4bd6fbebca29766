//! Numbers that kinds have in a link. They never change, and a kind without one does not compile: it
//! would open as another.

use super::LinkError;
use crate::plan::{BoxKind, DropKind, Entry, Through};
use crate::rules::RuleBook;

/// What a link says by a number of its own.
pub(super) trait Coded: Sized {
    /// Its number.
    fn code(self) -> i64;

    /// What has this number.
    ///
    /// # Errors
    /// [`LinkError::TooNew`] for one that nothing has yet.
    fn of_code(code: i64) -> Result<Self, LinkError>;
}

macro_rules! codes {
    ($kind:ty: $($variant:ident = $code:literal),* $(,)?) => {
        impl Coded for $kind {
            fn code(self) -> i64 {
                match self { $(Self::$variant => $code),* }
            }

            fn of_code(code: i64) -> Result<Self, LinkError> {
                match code {
                    $($code => Ok(Self::$variant),)*
                    _ => Err(LinkError::TooNew),
                }
            }
        }
    };
}

codes!(DropKind:
    Data = 0,
    Television = 1,
    CeilingAccessPoint = 2,
    WallAccessPoint = 3,
    Camera = 4,
    Doorbell = 5,
    Other = 6,
);

codes!(BoxKind: Bracket = 0, ByOthers = 1, None = 2);

codes!(Entry: Above = 0, Below = 1, Either = 2);

codes!(RuleBook:
    UnitedStates = 0,
    Canada = 1,
    UnitedKingdom = 2,
    AustraliaNewZealand = 3,
);

codes!(Through:
    Studs = 0,
    Corner = 1,
    TopPlates = 2,
    BottomPlates = 3,
    Joists = 4,
    Outside = 5,
);
