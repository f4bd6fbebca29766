//! What an edit did, in the words an undo uses: "moved D16", "drew W4".

use crate::plan::edit::{Edit, Note};
use crate::plan::{
    CableId, Closet, DropId, KnownDimension, LevelId, OpeningId, Place, Placing, Plan, RoomId,
    Wall, WallId,
};
use crate::units::Mm;

/// What an edit of this plan does, told as done. Things are named as they are called before it; new
/// ones by the number they will get.
pub(super) fn words(edit: &Edit, plan: &Plan) -> String {
    match edit {
        Edit::Together(edits) => together(edits, plan),

        // The job.
        Edit::SetTitle(_) => String::from("renamed the job"),
        Edit::SetNote(_) => String::from("changed the note"),
        Edit::SetUnits(_) => String::from("changed the units"),
        Edit::SetDate(_) => String::from("changed the date"),
        Edit::SetDates(_) => String::from("changed the dates"),
        Edit::NextRevision => String::from("counted the revision up"),
        Edit::SetRuleBook(_) => String::from("changed the rule book"),
        Edit::OwnRules => String::from("took its own rules"),
        Edit::CopyRules => String::from("began its own rules anew"),
        Edit::SetRule(..) => String::from("set an own figure"),
        Edit::ResetRule(_) => String::from("took the published figure"),
        Edit::SetBits(_) => String::from("changed the bits"),
        Edit::SetCableKind(..) => String::from("changed a cable kind"),
        Edit::FreezeLabels => String::from("froze the labels"),
        Edit::KeepNumbers { .. } => String::from("kept the numbers of holes"),
        Edit::Dismiss { .. } => String::from("set a finding aside"),
        Edit::Restore { .. } => String::from("took a finding up again"),
        Edit::AddPin(_) => String::from("pinned a way"),
        Edit::RemovePin(_) => String::from("unpinned a way"),
        Edit::TakeReply(_) => String::from("took in a reply"),
        Edit::RemoveReply(_) => String::from("removed a reply"),

        // Levels, and the drawing under one.
        Edit::AddLevel { name, .. } => format!("added {name}"),
        Edit::RemoveLevel(id) => format!("removed {}", level(plan, *id)),
        Edit::SetLevel { level: id, .. } => format!("changed {}", level(plan, *id)),
        Edit::SetAbove(id, _) => format!("stated what is over {}", level(plan, *id)),
        Edit::SetBelow(id, _) => format!("stated what is under {}", level(plan, *id)),
        Edit::PutScan(.., known) if known.is_empty() => String::from("opened a drawing"),
        Edit::PutScan(..) => String::from("squared up the drawing"),
        Edit::RemoveScan(_) => String::from("took the drawing away"),
        Edit::SetPlacing(id, placing) => laid(plan, *id, *placing),
        Edit::AddKnown(_, known) => known_length(plan, known),
        Edit::RemoveKnown(..) => String::from("removed a known length"),

        // Walls and openings.
        Edit::AddWall { .. } => format!("drew W{}", plan.next.wall),
        Edit::SetWall(changed) => changed_wall(plan, changed),
        Edit::MoveCorner { .. } => String::from("moved a corner"),
        Edit::RemoveWall(id) => format!("removed {}", wall(*id)),
        Edit::AddOpening(new) => format!("put a {} in {}", new.kind.name(), wall(new.wall)),
        Edit::SetOpening(changed) => format!("changed {}", opening(plan, changed.id)),
        Edit::RemoveOpening(id) => format!("removed {}", opening(plan, *id)),

        // Rooms, keep-outs, power.
        Edit::AddRoom { name, .. } => format!("named {name}"),
        Edit::SetRoom { room, name, .. } => changed_room(plan, *room, name),
        Edit::RemoveRoom(id) => format!("removed the name of {}", room(plan, *id)),
        Edit::AddKeepOut(_, keep_out) => format!("kept a place clear: {}", keep_out.reason.name()),
        Edit::SetKeepOut(keep_out) => format!("changed a keep-out: {}", keep_out.reason.name()),
        Edit::RemoveKeepOut(_) => String::from("removed a keep-out"),
        Edit::AddPowerRun(..) => String::from("drew a power run"),
        Edit::SetPowerRun(_) => String::from("changed a power run"),
        Edit::RemovePowerRun(_) => String::from("removed a power run"),

        // Closet, drops, cables.
        Edit::SetCloset(None) => String::from("removed the closet"),
        Edit::SetCloset(Some(closet)) => placed_closet(plan, closet),
        Edit::AddDrop { kind, .. } => format!("placed {}{}", kind.letter(), plan.next.drop),
        Edit::MoveDrop(id, place) => moved_drop(plan, *id, *place),
        Edit::SetDrop(details) => format!("changed {}", drop(plan, details.id)),
        Edit::RemoveDrop(id) => format!("removed {}", drop(plan, *id)),
        Edit::AddCable(id, _) => format!("added a cable to {}", drop(plan, *id)),
        Edit::SetCable(id, _) => format!("changed cable {}", cable(plan, *id)),
        Edit::RemoveCable(id) => format!("removed cable {}", cable(plan, *id)),

        // The record of the site.
        Edit::Note(note) => of_note(note, plan),
    }
}

/// Several edits are told by the first, which is the one the others follow from; several notes by the
/// drop they are of.
fn together(edits: &[Edit], plan: &Plan) -> String {
    match edits.first() {
        Some(Edit::Note(Note::Cable(id, ..))) if edits.len() > 1 => {
            let drop = plan.cable(*id).map(|(drop, _)| drop.label());
            format!("ticked off {}", drop.unwrap_or_default())
        }
        Some(Edit::Note(Note::Box(id, ..))) if edits.len() > 1 => {
            format!("ticked off {}", drop(plan, *id))
        }
        Some(edit) => words(edit, plan),
        None => String::from("changed nothing"),
    }
}

fn laid(plan: &Plan, id: LevelId, placing: Placing) -> String {
    let known = plan.level(id).map(|level| level.sheet.placing.turn);
    let is_turned = known.is_some_and(|turn| turn != placing.turn);
    String::from(match is_turned {
        true => "turned the drawing",
        false => "moved the drawing",
    })
}

fn known_length(plan: &Plan, known: &KnownDimension) -> String {
    let length = plan.units.position(known.length);
    format!("set a known length of {length}")
}

fn changed_wall(plan: &Plan, wall: &Wall) -> String {
    let label = wall.label();
    match plan.wall(wall.id) {
        Some((_, known)) if wall.never_drill && !known.never_drill => {
            format!("closed {label} to the drill")
        }
        Some((_, known)) if known.never_drill && !wall.never_drill => {
            format!("opened {label} to the drill")
        }
        Some((_, known)) if wall.doubled && !known.doubled => {
            format!("doubled the studs of {label}")
        }
        Some((_, known)) if known.doubled && !wall.doubled => {
            format!("made the studs of {label} single")
        }
        _ => format!("changed {label}"),
    }
}

fn changed_room(plan: &Plan, id: RoomId, name: &str) -> String {
    match room(plan, id) {
        known if known == name => format!("moved the name of {known}"),
        known => format!("renamed {known}"),
    }
}

fn placed_closet(plan: &Plan, closet: &Closet) -> String {
    String::from(match plan.closet {
        None => "placed the closet",
        Some(known) if known.place == closet.place => "changed the closet",
        Some(_) => "moved the closet",
    })
}

fn moved_drop(plan: &Plan, id: DropId, place: Place) -> String {
    match plan.drop(id) {
        Some(known) if differs_in_height_alone(known.place, place) => {
            format!("set the height of {}", known.label())
        }
        _ => format!("moved {}", drop(plan, id)),
    }
}

fn of_note(note: &Note, plan: &Plan) -> String {
    let told = |what: String, is_there: bool| match is_there {
        true => format!("noted {what}"),
        false => format!("took back {what}"),
    };
    match note {
        Note::Cable(id, stage, date) => told(
            format!("{} {}", cable(plan, *id), stage.name()),
            date.is_some(),
        ),
        Note::Box(id, stage, date) => told(
            format!("{} {}", drop(plan, *id), stage.name()),
            date.is_some(),
        ),
        Note::Test(id, test) => told(format!("the test of {}", cable(plan, *id)), test.is_some()),
        Note::Length(id, length) => told(
            format!("the length of {}", cable(plan, *id)),
            length.is_some(),
        ),
        Note::BoxWords(id, _) => format!("changed the note at {}", drop(plan, *id)),
        Note::Photos(_) => String::from("noted where the pictures are"),
        Note::Inspected(mark) => told(String::from("the inspection"), mark.is_some()),
        Note::HandedOver(mark) => told(String::from("the handover"), mark.is_some()),
        Note::AddPunch(..) => format!("wrote down P{}", plan.record.last_punch + 1),
        Note::Punch(number, done) => match done {
            Some(_) => format!("noted P{number} done"),
            None => format!("opened P{number} again"),
        },
        Note::RemovePunch(number) => format!("removed P{number}"),
        Note::TakenOut(id) => match plan.record.left.iter().find(|left| left.cable == *id) {
            Some(left) => format!("noted {} taken out", left.name),
            None => String::from("noted a cable taken out"),
        },
    }
}

fn differs_in_height_alone(known: Place, place: Place) -> bool {
    let at_floor = |mut place: Place| {
        if let Place::Wall { height, .. } | Place::Outside { height, .. } = &mut place {
            *height = Mm(0);
        }
        place
    };
    known != place && at_floor(known) == at_floor(place)
}

fn level(plan: &Plan, id: LevelId) -> String {
    plan.level(id)
        .map_or_else(|| String::from("a level"), |level| level.name.clone())
}

fn wall(id: WallId) -> String {
    format!("W{}", id.0)
}

fn opening(plan: &Plan, id: OpeningId) -> String {
    match plan.opening(id) {
        Some((_, opening)) => format!("the {} in {}", opening.kind.name(), wall(opening.wall)),
        None => String::from("an opening"),
    }
}

fn room(plan: &Plan, id: RoomId) -> String {
    let rooms = plan.levels.iter().find_map(|level| level.room(id));
    rooms.map_or_else(|| String::from("a room"), |room| room.name.clone())
}

fn drop(plan: &Plan, id: DropId) -> String {
    plan.drop(id)
        .map_or_else(|| String::from("a drop"), crate::plan::Drop::label)
}

fn cable(plan: &Plan, id: CableId) -> String {
    plan.cable_label(id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{DropKind, Lumber, Role};
    use crate::shape::Point;

    #[test]
    fn things_are_called_by_their_labels() {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let at = Point::new(1000, 1000);
        let add = Edit::AddDrop {
            kind: DropKind::CeilingAccessPoint,
            level,
            place: Place::Ceiling { at },
        };
        assert_eq!(words(&add, &plan), "placed A1");
        let plan = plan.apply(&add).unwrap();
        assert_eq!(words(&Edit::RemoveDrop(DropId(1)), &plan), "removed A1");
        let draw = Edit::AddWall {
            level,
            from: at,
            to: Point::new(5000, 1000),
            lumber: Lumber::TwoByFour,
            role: Role::Partition,
        };
        assert_eq!(words(&draw, &plan), "drew W1");
        assert_eq!(words(&Edit::Together(vec![draw, add]), &plan), "drew W1");
        assert_eq!(words(&Edit::RemoveLevel(level), &plan), "removed Ground");
    }

    #[test]
    fn a_wall_closed_to_the_drill_says_so() {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let draw = Edit::AddWall {
            level,
            from: Point::new(0, 0),
            to: Point::new(5000, 1000),
            lumber: Lumber::TwoByFour,
            role: Role::Partition,
        };
        let plan = plan.apply(&draw).unwrap();
        let mut wall = plan.levels[0].walls[0];
        wall.never_drill = true;
        assert_eq!(words(&Edit::SetWall(wall), &plan), "closed W1 to the drill");
    }

    #[test]
    fn a_note_is_told_by_what_it_is_of() {
        let level = Plan::new().levels[0].id;
        let place = Place::Ceiling {
            at: Point::new(1000, 1000),
        };
        let plan = Plan::new().apply(&Edit::AddDrop {
            kind: DropKind::Data,
            level,
            place,
        });
        let plan = plan.unwrap();
        let pulled = |date| Note::Cable(CableId(2), crate::plan::CableStage::Pulled, date);
        let told = |note| words(&Edit::Note(note), &plan);
        assert_eq!(told(pulled(Some(String::new()))), "noted D1B pulled");
        assert_eq!(told(pulled(None)), "took back D1B pulled");
        let both = [pulled(Some(String::new())), pulled(None)].map(Edit::Note);
        assert_eq!(words(&Edit::Together(both.into()), &plan), "ticked off D1");
        assert_eq!(told(Note::AddPunch(None, "sweep".into())), "wrote down P1");
    }

    #[test]
    fn doubled_studs_are_told_both_ways() {
        let plan = Plan::new();
        let draw = Edit::AddWall {
            level: plan.levels[0].id,
            from: Point::new(0, 0),
            to: Point::new(5000, 0),
            lumber: Lumber::TwoByFour,
            role: Role::Bearing,
        };
        let single = plan.apply(&draw).unwrap();
        let wall = single.levels[0].walls[0];
        let double = Edit::SetWall(crate::plan::Wall {
            doubled: true,
            ..wall
        });
        assert_eq!(words(&double, &single), "doubled the studs of W1");
        let doubled = single.apply(&double).unwrap();
        let back = words(&Edit::SetWall(wall), &doubled);
        assert_eq!(back, "made the studs of W1 single");
    }
}
