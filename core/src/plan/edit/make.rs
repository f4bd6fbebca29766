//! Which function makes which edit: one arm an edit, so that one that is forgotten does not compile.

use super::{Done, Edit};
use super::{
    cables, drops, levels, openings, printed, record, replies, settings, sheet, site, walls,
};
use crate::plan::Plan;

/// Carries an edit out on a plan that is thrown away if it is refused.
pub(super) fn make(plan: &mut Plan, edit: &Edit) -> Done {
    match edit {
        Edit::Together(edits) => edits.iter().try_for_each(|edit| make(plan, edit)),

        // The job.
        Edit::SetTitle(title) => settings::set_title(plan, title),
        Edit::SetNote(note) => settings::set_note(plan, note),
        Edit::SetUnits(units) => settings::set_units(plan, *units),
        Edit::SetDate(date) => settings::set_date(plan, date),
        Edit::SetDates(dates) => settings::set_dates(plan, dates),
        Edit::NextRevision => settings::next_revision(plan),
        Edit::SetRuleBook(book) => settings::set_rule_book(plan, *book),
        Edit::OwnRules => settings::own_rules(plan),
        Edit::CopyRules => settings::copy_rules(plan),
        Edit::SetRule(rule, value) => settings::set_rule(plan, *rule, *value),
        Edit::ResetRule(rule) => settings::reset_rule(plan, *rule),
        Edit::SetBits(bits) => settings::set_bits(plan, bits),
        Edit::SetCableKind(kind, spec) => settings::set_cable_kind(plan, *kind, spec),
        Edit::FreezeLabels => settings::freeze_labels(plan),
        Edit::Dismiss { key, reason } => settings::dismiss(plan, key, reason),
        Edit::Restore { key } => settings::restore(plan, key),

        // Levels.
        Edit::AddLevel { name, floor } => levels::add(plan, name, *floor),
        Edit::RemoveLevel(level) => levels::remove(plan, *level),
        Edit::SetLevel {
            level,
            name,
            ceiling,
        } => levels::set(plan, *level, name, *ceiling),
        Edit::SetAbove(level, above) => levels::set_above(plan, *level, *above),
        Edit::SetBelow(level, below) => levels::set_below(plan, *level, *below),

        // The drawing under a level.
        Edit::PutScan(level, scan, at, known) => sheet::put(plan, *level, scan, *at, known),
        Edit::RemoveScan(level) => sheet::remove(plan, *level),
        Edit::SetPlacing(level, placing) => sheet::place(plan, *level, *placing),
        Edit::AddKnown(level, known) => sheet::add_known(plan, *level, *known),
        Edit::RemoveKnown(level, index) => sheet::remove_known(plan, *level, *index),

        // Walls.
        Edit::AddWall {
            level,
            from,
            to,
            lumber,
            role,
        } => walls::add(plan, *level, (*from, *to), *lumber, *role),
        Edit::SetWall(wall) => walls::set(plan, *wall),
        Edit::MoveCorner { level, from, to } => walls::move_corner(plan, *level, *from, *to),
        Edit::RemoveWall(wall) => walls::remove(plan, *wall),

        // Openings.
        Edit::AddOpening(opening) => openings::add(plan, *opening),
        Edit::SetOpening(opening) => openings::set(plan, *opening),
        Edit::RemoveOpening(opening) => openings::remove(plan, *opening),

        // Rooms, keep-outs, power.
        Edit::AddRoom { level, name, at } => site::add_room(plan, *level, name, *at),
        Edit::SetRoom { room, name, at } => site::set_room(plan, *room, name, *at),
        Edit::RemoveRoom(room) => site::remove_room(plan, *room),
        Edit::AddKeepOut(level, keep_out) => site::add_keep_out(plan, *level, keep_out),
        Edit::SetKeepOut(keep_out) => site::set_keep_out(plan, keep_out),
        Edit::RemoveKeepOut(keep_out) => site::remove_keep_out(plan, *keep_out),
        Edit::AddPowerRun(level, run) => site::add_power_run(plan, *level, run),
        Edit::SetPowerRun(run) => site::set_power_run(plan, run),
        Edit::RemovePowerRun(run) => site::remove_power_run(plan, *run),

        // Closet and drops.
        Edit::SetCloset(closet) => drops::set_closet(plan, *closet),
        Edit::AddDrop { kind, level, place } => drops::add(plan, *kind, *level, *place),
        Edit::MoveDrop(drop, place) => drops::relocate(plan, *drop, *place),
        Edit::SetDrop(details) => drops::set(plan, details),
        Edit::RemoveDrop(drop) => drops::remove(plan, *drop),

        // Cables and pins.
        Edit::AddCable(drop, kind) => cables::add(plan, *drop, *kind),
        Edit::SetCable(cable, kind) => cables::set(plan, *cable, *kind),
        Edit::RemoveCable(cable) => cables::remove(plan, *cable),
        Edit::AddPin(pin) => cables::add_pin(plan, *pin),
        Edit::RemovePin(pin) => cables::remove_pin(plan, *pin),

        // Replies.
        Edit::TakeReply(reply) => replies::take(plan, reply),
        Edit::RemoveReply(reply) => replies::remove(plan, reply),

        // The record of the site.
        Edit::Note(note) => record::take(plan, note),

        // Paper.
        Edit::KeepNumbers { rows, sum } => printed::keep(plan, rows, *sum),
    }
}
