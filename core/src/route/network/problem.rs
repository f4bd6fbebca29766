//! The problem as a caller writes it down, and what can be wrong with it.
//!
//! Nothing here is sorted or indexed; that is [`Network`](super::Network)'s part.

use std::error::Error;
use std::fmt;

use super::tariff;

/// Cables that run to one sink over an undirected graph whose forbidden edges are simply absent.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Problem {
    /// Number of nodes; a node is an index below it.
    pub nodes: u32,
    /// The node where every cable ends.
    pub sink: u32,
    /// Moves between two nodes, in either direction; several may join the same two nodes.
    pub edges: Vec<Edge>,
    /// What is paid by the bore; an edge names one by its index.
    pub crossings: Vec<Crossing>,
    /// The cables; their order carries no meaning.
    pub cables: Vec<Cable>,
    /// Nodes that a cable must pass; those of one cable are passed in the order written.
    pub pins: Vec<Pin>,
}

/// One move between two nodes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edge {
    /// One end.
    pub u: u32,
    /// The other end. An edge from a node to itself is allowed and never used.
    pub v: u32,
    /// What each cable pays, in thousandths.
    pub cost: u32,
    /// Length in millimetres, counted against a cable's limit.
    pub length_mm: u32,
    /// The crossing it goes through. Edges may share one: a cable that uses several of them is
    /// held by the crossing once.
    pub crossing: Option<u32>,
}

/// Kinds of bore that one crossing may have.
pub(super) const KINDS: usize = 3;

/// A place that is paid by the bore and shared by every cable that fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Crossing {
    /// What one bore of the cheapest kind costs, in thousandths.
    pub price: u32,
    /// Cable area that it holds, in hundredths of a square millimetre.
    pub capacity: u32,
    /// `None` where areas are poured over bores of this one kind: as many as the least whole number not
    /// under (sum of areas / capacity). Else whole cables are dealt over bores of this kind and of
    /// these, each dearer and wider than the one before and [`Bore::NONE`] at the end; see [`deals`].
    ///
    /// [`deals`]: super::deals
    pub wider: Option<[Bore; KINDS - 1]>,
}

/// A kind of bore.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Bore {
    /// What one costs, in thousandths.
    pub price: u32,
    /// Cable area that one holds, in hundredths of a square millimetre.
    pub capacity: u32,
}

impl Bore {
    /// Stands for no kind at all.
    pub const NONE: Self = Self {
        price: 0,
        capacity: 0,
    };
}

/// One cable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cable {
    /// A key that stays with the cable; no two cables share one, and ties are broken by it.
    pub id: u64,
    /// The node where it starts.
    pub source: u32,
    /// Its cross-section in hundredths of a square millimetre.
    pub area: u32,
    /// The longest way allowed, in millimetres; `u32::MAX` for no limit.
    pub max_length_mm: u32,
}

/// A node that one cable must pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pin {
    /// The cable's id.
    pub cable: u64,
    /// The node.
    pub node: u32,
}

/// Why a problem cannot be posed. Indices are the caller's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProblemError {
    /// The sink is not a node.
    SinkOutside,
    /// An end of this edge is not a node.
    EdgeOutside(usize),
    /// The crossing that this edge names is not in the list.
    CrossingOutside(usize),
    /// A bore at this crossing holds nothing.
    NoCapacity(usize),
    /// The kinds of bore at this crossing are not each dearer and wider than the one before.
    Kinds(usize),
    /// The source of this cable is not a node.
    SourceOutside(usize),
    /// This cable has no area.
    NoArea(usize),
    /// Two cables have this id.
    SameId(u64),
    /// This pin names a node that is not there.
    PinOutside(usize),
    /// This pin names a cable that is not there.
    PinWithoutCable(usize),
    /// Costs, lengths or areas add up to more than the arithmetic holds.
    TooLarge,
}

impl fmt::Display for ProblemError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::SinkOutside => write!(f, "The sink is not one of the nodes."),
            Self::EdgeOutside(i) => write!(f, "Edge {i} ends at a node that is not there."),
            Self::CrossingOutside(i) => write!(f, "Edge {i} names a crossing that is not there."),
            Self::NoCapacity(i) => write!(f, "A bore at crossing {i} has no capacity."),
            Self::Kinds(i) => write!(
                f,
                "The kinds of bore at crossing {i} are not each dearer and wider than the one before."
            ),
            Self::SourceOutside(i) => write!(f, "Cable {i} starts at a node that is not there."),
            Self::NoArea(i) => write!(f, "Cable {i} has no cross-section."),
            Self::SameId(id) => write!(f, "Two cables have the id {id}."),
            Self::PinOutside(i) => write!(f, "Pin {i} names a node that is not there."),
            Self::PinWithoutCable(i) => write!(f, "Pin {i} names a cable that is not there."),
            Self::TooLarge => write!(f, "The costs, lengths or areas add up to too much."),
        }
    }
}

impl Error for ProblemError {}

impl Problem {
    /// Looks for the first fault in the problem.
    pub(super) fn validate(&self) -> Result<(), ProblemError> {
        if self.sink >= self.nodes {
            return Err(ProblemError::SinkOutside);
        }
        self.validate_edges()?;
        self.validate_cables()?;
        self.validate_pins()?;
        self.validate_sums()
    }

    fn validate_edges(&self) -> Result<(), ProblemError> {
        for (i, edge) in self.edges.iter().enumerate() {
            if edge.u >= self.nodes || edge.v >= self.nodes {
                return Err(ProblemError::EdgeOutside(i));
            }
            if edge
                .crossing
                .is_some_and(|j| j as usize >= self.crossings.len())
            {
                return Err(ProblemError::CrossingOutside(i));
            }
        }
        for (j, crossing) in self.crossings.iter().enumerate() {
            if crossing.capacity == 0 {
                return Err(ProblemError::NoCapacity(j));
            }
            let is_more =
                |one: &Bore, next: &Bore| one.price < next.price && one.capacity < next.capacity;
            if !crossing.kinds().collect::<Vec<_>>().is_sorted_by(is_more) {
                return Err(ProblemError::Kinds(j));
            }
        }
        Ok(())
    }

    fn validate_cables(&self) -> Result<(), ProblemError> {
        for (i, cable) in self.cables.iter().enumerate() {
            if cable.source >= self.nodes {
                return Err(ProblemError::SourceOutside(i));
            }
            if cable.area == 0 {
                return Err(ProblemError::NoArea(i));
            }
        }
        let ids = self.sorted_ids();
        match ids.windows(2).find(|pair| pair[0] == pair[1]) {
            Some(pair) => Err(ProblemError::SameId(pair[0])),
            None => Ok(()),
        }
    }

    fn validate_pins(&self) -> Result<(), ProblemError> {
        let ids = self.sorted_ids();
        for (i, pin) in self.pins.iter().enumerate() {
            if pin.node >= self.nodes {
                return Err(ProblemError::PinOutside(i));
            }
            if ids.binary_search(&pin.cable).is_err() {
                return Err(ProblemError::PinWithoutCable(i));
            }
        }
        Ok(())
    }

    fn sorted_ids(&self) -> Vec<u64> {
        let mut ids: Vec<u64> = self.cables.iter().map(|cable| cable.id).collect();
        ids.sort_unstable();
        ids
    }

    /// No sum that a search can form may pass 2^50, nor the areas together 2^32.
    fn validate_sums(&self) -> Result<(), ProblemError> {
        let area: u128 = self.cables.iter().map(|cable| u128::from(cable.area)).sum();
        let linear: u128 = self.edges.iter().map(|edge| u128::from(edge.cost)).sum();
        let length: u128 = self
            .edges
            .iter()
            .map(|edge| u128::from(edge.length_mm))
            .sum();
        let bores: u128 = self
            .edges
            .iter()
            .map(|edge| self.most_bores(edge, area))
            .sum();
        let walks = (self.cables.len() + self.pins.len() + 1) as u128;
        let most = (linear + bores + length) * walks;
        let counts = self.nodes < u32::MAX && self.edges.len() < (1 << 30);
        match counts && area < (1 << 32) && most < (1 << 50) {
            true => Ok(()),
            false => Err(ProblemError::TooLarge),
        }
    }

    fn most_bores(&self, edge: &Edge, area: u128) -> u128 {
        let crossing = edge.crossing.and_then(|j| self.crossings.get(j as usize));
        crossing.map_or(0, |c| match c.wider {
            None => u128::from(c.price) * area.div_ceil(u128::from(c.capacity)),
            Some(_) => tariff::most(c).into(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sound() -> Problem {
        let edge = Edge {
            u: 0,
            v: 1,
            cost: 5,
            length_mm: 7,
            crossing: Some(0),
        };
        Problem {
            nodes: 2,
            sink: 1,
            edges: vec![edge],
            crossings: vec![Crossing::poured(3, 10)],
            cables: vec![Cable {
                id: 1,
                source: 0,
                area: 4,
                max_length_mm: 90,
            }],
            pins: vec![Pin { cable: 1, node: 0 }],
        }
    }

    fn fault(spoil: impl Fn(&mut Problem)) -> ProblemError {
        let mut problem = sound();
        spoil(&mut problem);
        problem.validate().unwrap_err()
    }

    #[test]
    fn a_sound_problem_passes() {
        assert_eq!(sound().validate(), Ok(()));
    }

    #[test]
    fn every_fault_is_named() {
        assert_eq!(fault(|p| p.sink = 2), ProblemError::SinkOutside);
        assert_eq!(fault(|p| p.edges[0].v = 2), ProblemError::EdgeOutside(0));
        assert_eq!(
            fault(|p| p.edges[0].crossing = Some(1)),
            ProblemError::CrossingOutside(0)
        );
        assert_eq!(
            fault(|p| p.crossings[0].capacity = 0),
            ProblemError::NoCapacity(0)
        );
        assert_eq!(
            fault(|p| p.cables[0].source = 9),
            ProblemError::SourceOutside(0)
        );
        let narrower = Bore {
            price: 4,
            capacity: 10,
        };
        let narrower = Some([narrower, Bore::NONE]);
        assert_eq!(
            fault(|p| p.crossings[0].wider = narrower),
            ProblemError::Kinds(0)
        );
        assert_eq!(fault(|p| p.cables[0].area = 0), ProblemError::NoArea(0));
        assert_eq!(
            fault(|p| p.cables.push(p.cables[0])),
            ProblemError::SameId(1)
        );
        assert_eq!(fault(|p| p.pins[0].node = 2), ProblemError::PinOutside(0));
        assert_eq!(
            fault(|p| p.pins[0].cable = 2),
            ProblemError::PinWithoutCable(0)
        );
    }

    #[test]
    fn sums_beyond_the_arithmetic_are_refused() {
        let bores = fault(|p| {
            p.crossings[0] = Crossing::poured(u32::MAX, 1);
            p.cables[0].area = u32::MAX;
        });
        assert_eq!(bores, ProblemError::TooLarge);
        assert!(bores.to_string().ends_with('.'));
    }
}
