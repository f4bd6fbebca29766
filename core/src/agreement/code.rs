//! The number that each kind of thing has in a digest. People have signed these: a number once given
//! stays, whatever is put between two kinds, and a new kind takes the next free one.

use crate::plan::{BoxKind, DropKind, Entry, Role};
use crate::route::Member;

pub(super) fn drop(kind: DropKind) -> i64 {
    match kind {
        DropKind::Data => 0,
        DropKind::Television => 1,
        DropKind::CeilingAccessPoint => 2,
        DropKind::WallAccessPoint => 3,
        DropKind::Camera => 4,
        DropKind::Doorbell => 5,
        DropKind::Other => 6,
    }
}

pub(super) fn fixing(fixing: BoxKind) -> i64 {
    match fixing {
        BoxKind::Bracket => 0,
        BoxKind::ByOthers => 1,
        BoxKind::None => 2,
    }
}

pub(super) fn entry(entry: Entry) -> i64 {
    match entry {
        Entry::Above => 0,
        Entry::Below => 1,
        Entry::Either => 2,
    }
}

pub(super) fn role(role: Role) -> i64 {
    match role {
        Role::Exterior => 0,
        Role::Bearing => 1,
        Role::Partition => 2,
    }
}

pub(super) fn member(member: &Member) -> i64 {
    match member {
        Member::Studs(_) => 0,
        Member::Corner { .. } => 1,
        Member::TopPlates(_) => 2,
        Member::BottomPlates(_) => 3,
        Member::Joist { .. } => 4,
        Member::Web { .. } => 5,
        Member::Sheathing => 6,
        Member::Soffit => 7,
    }
}
