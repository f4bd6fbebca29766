//! Pins of a plan as places in the graph. A pin that nothing near can hold is left out and told.

use super::network;
use super::{MoveKind, Routing};
use crate::framing::LevelFraming;
use crate::plan::{CableId, Pin, PinTo};

impl Routing<'_> {
    /// Pinned bays and places overhead as nodes the cables must pass.
    pub(super) fn pins(&self) -> Vec<network::Pin> {
        let node = |(cable, to): (CableId, PinTo)| {
            Some(network::Pin {
                cable: u64::from(cable.0),
                node: self.pinned(cable, to)?,
            })
        };
        self.pins_of_cables().filter_map(node).collect()
    }

    /// Pins of routed cables that no node can hold.
    pub(super) fn unheld(&self) -> Vec<Pin> {
        let lost = |(cable, to): &(CableId, PinTo)| self.pinned(*cable, *to).is_none();
        let pin = |(cable, to)| Pin::Cable { cable, to };
        self.pins_of_cables().filter(lost).map(pin).collect()
    }

    fn pins_of_cables(&self) -> impl Iterator<Item = (CableId, PinTo)> {
        let routed = |cable: &CableId| self.routed.iter().any(|(known, _)| known == cable);
        let pins = self.plan.pins.iter().filter_map(|pin| match *pin {
            Pin::Cable { cable, to } => Some((cable, to)),
            Pin::Lane { .. } => None,
        });
        pins.filter(move |(cable, _)| routed(cable))
    }

    /// The node nearest to a pinned place.
    fn pinned(&self, cable: CableId, to: PinTo) -> Option<u32> {
        match to {
            PinTo::Bay { wall, .. } => {
                let along = |kind| matches!(kind, MoveKind::AlongWall { wall: on } if on == wall);
                self.framing.wall(wall)?;
                self.nearest(to, along)
            }
            PinTo::Overhead { .. } => {
                let over = self.level_of(cable);
                let in_it = |kind| {
                    let space = space(kind);
                    over.is_some_and(|level| space.is_some_and(|space| level.is_under(space)))
                };
                let in_any = |kind| space(kind).is_some();
                self.nearest(to, in_it).or_else(|| self.nearest(to, in_any))
            }
        }
    }

    fn nearest(&self, to: PinTo, fits: impl Fn(MoveKind) -> bool) -> Option<u32> {
        let at = to.position(self.plan)?;
        let steps = self.graph.steps.iter().filter(|step| fits(step.kind));
        let nodes = steps.flat_map(|step| [step.from, step.to]);
        let apart = |node: &u32| self.graph.places[*node as usize].at.distance(at);
        nodes.min_by(|a, b| apart(a).total_cmp(&apart(b)).then(a.cmp(b)))
    }

    /// The level that a cable's drop is on.
    fn level_of(&self, cable: CableId) -> Option<&LevelFraming> {
        let (drop, _) = self.plan.cable(cable)?;
        self.framing.level(drop.level)
    }
}

/// The space a move is made in, if it is made in one.
fn space(kind: MoveKind) -> Option<usize> {
    match kind {
        MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => Some(space),
        _ => None,
    }
}
