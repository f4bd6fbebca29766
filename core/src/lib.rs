//! From a drawing to a drill list.
//!
//! Borewright plans the data cabling of a new house while its framing is open. This package is all
//! of it that can be right or wrong; it has no browser, clock, random source, storage or output.
//!
//! 1. A person draws and chooses: that is a [`plan::Plan`], in lengths of [`units`], changed only
//!    by a [`plan::edit::Edit`]. What the hands do on the way there is [`desk`]; the picture under
//!    the plan is laid to scale by [`scan`].
//! 2. [`framing`] makes wood of it: studs, plates, headers, bays, joists and the strips between.
//! 3. [`route`] finds the way of every cable through that wood, with holes shared.
//! 4. [`bore`] sizes every hole within the limits of [`rules`], and lists them.
//! 5. [`schedule`] counts and cuts; [`finding`] says what a person should look at.
//! 6. [`design::Design::of`] is steps 2 to 5 in one pure function: the same plan gives the same
//!    design on every machine.
//! 7. [`agreement`] says what builder and owner can agree to, and how each item of it stands.
//! 8. [`picture`] draws it once for screen and paper, [`sheet`] lays out the pages, and [`mod@file`]
//!    is the only room that knows how a plan is saved or put in a link; [`tongue`] says a crew's
//!    paper in its own tongue.
//!
//! ```
//! use borewright_core::design::Design;
//! use borewright_core::plan::edit::{Edit, Refusal};
//! use borewright_core::plan::*;
//! use borewright_core::shape::Point;
//! use borewright_core::units::Mm;
//!
//! // Four outside walls, 24 ft by 16 ft, on a slab under roof trusses.
//! let corners = [(0, 0), (7315, 0), (7315, 4877), (0, 4877), (0, 0)].map(|(x, y)| Point::new(x, y));
//! let mut plan = Plan::new();
//! let level = plan.levels[0].id;
//! for pair in corners.windows(2) {
//!     plan = plan.apply(&Edit::AddWall {
//!         level,
//!         from: pair[0],
//!         to: pair[1],
//!         lumber: Lumber::TwoBySix,
//!         role: Role::Exterior,
//!     })?;
//! }
//! let on = |wall, offset| (WallId(wall), Mm(offset));
//!
//! // The closet on the first wall, an outlet on the third.
//! let (wall, offset) = on(1, 1000);
//! plan = plan.apply(&Edit::SetCloset(Some(Closet {
//!     level,
//!     place: ClosetPlace::Wall { wall, offset, side: Side::Right },
//!     entry: Entry::Above,
//!     panel_height: Mm::inches(60.0),
//! })))?;
//! let (wall, offset) = on(3, 1000);
//! let place = Place::Wall { wall, offset, side: Side::Right, height: Mm::inches(16.0) };
//! plan = plan.apply(&Edit::AddDrop { kind: DropKind::Data, level, place })?;
//!
//! // Two cables, up through one bore in the plates, over the trusses, and down through another.
//! let design = Design::of(&plan);
//! assert_eq!((design.totals.cables, design.totals.bores), (2, 2));
//! assert_eq!(design.drill_list[0].what, "top plates");
//! assert!(design.findings.iter().all(|finding| finding.severity.name() != "stop"));
//! # Ok::<(), Refusal>(())
//! ```

/// Every variant of a kind that derives [`strum::VariantArray`], in the order they are declared: an array that
/// cannot miss one.
macro_rules! every {
    ($kind:ty) => {{
        const ALL: &[$kind] = <$kind as strum::VariantArray>::VARIANTS;
        let mut every = [ALL[0]; ALL.len()];
        let mut place = 1;
        while place < ALL.len() {
            every[place] = ALL[place];
            place += 1;
        }
        every
    }};
}

pub mod agreement;
pub mod bore;
pub mod design;
pub mod desk;
pub mod file;
pub mod finding;
pub mod framing;
pub mod picture;
pub mod plan;
pub mod report;
pub mod route;
pub mod rules;
pub mod scan;
pub mod schedule;
pub mod shape;
pub mod sheet;
pub mod tongue;
pub mod units;
