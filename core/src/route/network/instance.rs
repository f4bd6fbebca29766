//! The problem as plain JSON, so that an outside solver can be asked.
//!
//! `{"nodes", "sink", "edges": [{"u", "v", "cost", "length_mm", "crossing"}], "crossings":
//! [{"price", "capacity_mm2", "wider": [{"price", "capacity_mm2"}]}], "cables": [{"id", "source", "area_mm2", "max_length_mm"}],
//! "answer": {"cost", "bound", "paths"}}`. Edges have no direction; `crossing` is an index or
//! `null`; `wider` is left out where areas are poured (see [`Crossing`]); costs are whole thousandths; areas are square millimetres with up to two decimals; a
//! limit of `null` is none; a path lists edge indices from the source to the sink and is empty for
//! a cable without a way. Pins have no place in it.

use std::error::Error;
use std::fmt;

use serde::{Deserialize, Serialize};

use super::answer::{Answer, Way};
use super::graph::Network;
use super::problem::{Bore, Cable, Crossing, Edge, KINDS, Problem, ProblemError};

/// A problem and, once solved, our answer to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instance {
    /// The problem, without pins.
    pub problem: Problem,
    /// The answer, if there is one.
    pub answer: Option<Answer>,
}

/// Why a text is no instance.
#[derive(Debug)]
pub enum InstanceError {
    /// Not the JSON described above.
    Json(serde_json::Error),
    /// An area is negative, too large, or finer than a hundredth of a square millimetre.
    Area(f64),
    /// The problem cannot be posed.
    Problem(ProblemError),
}

impl fmt::Display for InstanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Json(error) => write!(f, "This is not a routing instance: {error}."),
            Self::Area(area) => {
                write!(
                    f,
                    "{area} mm2 is not an area in whole hundredths; give two decimals."
                )
            }
            Self::Problem(error) => error.fmt(f),
        }
    }
}

impl Error for InstanceError {}

impl Instance {
    /// Reads an instance and checks that it can be posed.
    ///
    /// # Errors
    /// Where the text is not of the form above, or the problem has a fault.
    pub fn read(text: &str) -> Result<Self, InstanceError> {
        let form: InstanceForm = serde_json::from_str(text).map_err(InstanceError::Json)?;
        let problem = Problem {
            nodes: form.nodes,
            sink: form.sink,
            edges: form.edges.into_iter().map(Edge::from).collect(),
            crossings: form
                .crossings
                .iter()
                .map(crossing)
                .collect::<Result<_, _>>()?,
            cables: form.cables.iter().map(cable).collect::<Result<_, _>>()?,
            pins: Vec::new(),
        };
        Network::new(&problem).map_err(InstanceError::Problem)?;
        let answer = form.answer.map(|answer| answer.answer(&problem));
        Ok(Self { problem, answer })
    }

    /// Writes the instance, one edge, crossing, cable and path to a line.
    pub fn write(&self) -> String {
        let problem = &self.problem;
        let mut text = format!("{{\"nodes\":{},\"sink\":{}", problem.nodes, problem.sink);
        list(
            &mut text,
            "edges",
            problem.edges.iter().map(|edge| EdgeForm::from(*edge)),
        );
        list(
            &mut text,
            "crossings",
            problem.crossings.iter().map(CrossingForm::from),
        );
        list(
            &mut text,
            "cables",
            problem.cables.iter().map(CableForm::from),
        );
        if let Some(answer) = &self.answer {
            let bound = answer
                .bound
                .map_or("null".to_owned(), |bound| bound.to_string());
            text += &format!(",\n\"answer\":{{\"cost\":{},\"bound\":{bound}", answer.cost);
            list(&mut text, "paths", answer.ways.iter().map(Way::edges));
            text.push('}');
        }
        text + "}\n"
    }
}

fn list<T: Serialize>(text: &mut String, name: &str, items: impl Iterator<Item = T>) {
    let lines: Vec<String> = items
        .map(|item| serde_json::to_string(&item).unwrap_or_default())
        .collect();
    *text += &format!(",\n\"{name}\":[\n{}]", lines.join(",\n"));
}

#[derive(Deserialize)]
struct InstanceForm {
    nodes: u32,
    sink: u32,
    edges: Vec<EdgeForm>,
    crossings: Vec<CrossingForm>,
    cables: Vec<CableForm>,
    answer: Option<AnswerForm>,
}

#[derive(Deserialize, Serialize)]
struct EdgeForm {
    u: u32,
    v: u32,
    cost: u32,
    length_mm: u32,
    crossing: Option<u32>,
}

#[derive(Deserialize, Serialize)]
struct CrossingForm {
    price: u32,
    capacity_mm2: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wider: Option<Vec<BoreForm>>,
}

#[derive(Deserialize, Serialize)]
struct BoreForm {
    price: u32,
    capacity_mm2: f64,
}

#[derive(Deserialize, Serialize)]
struct CableForm {
    id: u64,
    source: u32,
    area_mm2: f64,
    max_length_mm: Option<u32>,
}

#[derive(Deserialize)]
struct AnswerForm {
    cost: u64,
    bound: Option<u64>,
    paths: Vec<Vec<u32>>,
}

impl From<EdgeForm> for Edge {
    fn from(
        EdgeForm {
            u,
            v,
            cost,
            length_mm,
            crossing,
        }: EdgeForm,
    ) -> Self {
        Self {
            u,
            v,
            cost,
            length_mm,
            crossing,
        }
    }
}

impl From<Edge> for EdgeForm {
    fn from(
        Edge {
            u,
            v,
            cost,
            length_mm,
            crossing,
        }: Edge,
    ) -> Self {
        Self {
            u,
            v,
            cost,
            length_mm,
            crossing,
        }
    }
}

impl From<&Crossing> for CrossingForm {
    fn from(crossing: &Crossing) -> Self {
        Self {
            price: crossing.price,
            capacity_mm2: f64::from(crossing.capacity) / 100.0,
            wider: crossing
                .wider
                .map(|_| crossing.kinds().skip(1).map(BoreForm::from).collect()),
        }
    }
}

impl From<Bore> for BoreForm {
    fn from(bore: Bore) -> Self {
        Self {
            price: bore.price,
            capacity_mm2: f64::from(bore.capacity) / 100.0,
        }
    }
}

impl From<&Cable> for CableForm {
    fn from(cable: &Cable) -> Self {
        Self {
            id: cable.id,
            source: cable.source,
            area_mm2: f64::from(cable.area) / 100.0,
            max_length_mm: Some(cable.max_length_mm).filter(|limit| *limit != u32::MAX),
        }
    }
}

fn crossing(form: &CrossingForm) -> Result<Crossing, InstanceError> {
    let mut wider = form.wider.as_ref().map(|_| [Bore::NONE; KINDS - 1]);
    let written = form.wider.iter().flatten();
    for (kind, form) in wider.iter_mut().flatten().zip(written) {
        kind.price = form.price;
        kind.capacity = hundredths(form.capacity_mm2)?;
    }
    Ok(Crossing {
        price: form.price,
        capacity: hundredths(form.capacity_mm2)?,
        wider,
    })
}

fn cable(form: &CableForm) -> Result<Cable, InstanceError> {
    Ok(Cable {
        id: form.id,
        source: form.source,
        area: hundredths(form.area_mm2)?,
        max_length_mm: form.max_length_mm.unwrap_or(u32::MAX),
    })
}

/// Exact for every number with two decimals: the nearest hundredth must give it back.
fn hundredths(mm2: f64) -> Result<u32, InstanceError> {
    let whole = (mm2 * 100.0).round();
    let fits = (0.0..=f64::from(u32::MAX)).contains(&whole);
    match fits && whole / 100.0 == mm2 {
        true => Ok(whole as u32),
        false => Err(InstanceError::Area(mm2)),
    }
}

impl AnswerForm {
    fn answer(self, problem: &Problem) -> Answer {
        let sources = problem
            .cables
            .iter()
            .map(|cable| cable.source)
            .chain(std::iter::repeat(0));
        let paths = self.paths.into_iter().zip(sources);
        let ways = paths
            .map(|(edges, source)| way(problem, edges, source))
            .collect();
        Answer {
            cost: self.cost,
            bound: self.bound,
            ways,
        }
    }
}

fn way(problem: &Problem, edges: Vec<u32>, source: u32) -> Way {
    if edges.is_empty() && source != problem.sink {
        return Way::NoPath;
    }
    let length = |i: &u32| {
        problem
            .edges
            .get(*i as usize)
            .map_or(0, |edge| edge.length_mm.into())
    };
    Way::Found {
        length_mm: edges.iter().map(length).sum(),
        edges,
    }
}

#[cfg(test)]
mod tests {
    use expect_test::expect;

    use super::super::effort::{Effort, solve};
    use super::super::sample::Sample;
    use super::*;

    fn solved() -> Instance {
        let problem = Sample {
            seed: 4,
            width: 3,
            height: 2,
            cables: 2,
            per_bore: 4,
        }
        .problem();
        let answer = Some(solve(&Network::new(&problem).unwrap(), Effort::LIVE));
        Instance { problem, answer }
    }

    #[test]
    fn what_is_written_is_read_again() {
        let instance = solved();
        assert_eq!(Instance::read(&instance.write()).unwrap(), instance);
    }

    #[test]
    fn kinds_of_bore_are_read_again() {
        let mut instance = solved();
        let bore = |price, capacity| Bore { price, capacity };
        let kinds = [bore(1_000, 3_000), bore(1_500, 6_001)];
        instance.problem.crossings[0] = Crossing::dealt(&kinds).unwrap();
        instance.problem.crossings[1] = Crossing::dealt(&kinds[..1]).unwrap();
        instance.answer = None;
        assert_eq!(Instance::read(&instance.write()).unwrap(), instance);
    }

    #[test]
    fn the_text_is_the_form_described() {
        expect![[r#"
            {"nodes":6,"sink":0,
            "edges":[
            {"u":0,"v":1,"cost":725,"length_mm":458,"crossing":0},
            {"u":0,"v":3,"cost":612,"length_mm":436,"crossing":1},
            {"u":1,"v":2,"cost":470,"length_mm":309,"crossing":2},
            {"u":1,"v":4,"cost":729,"length_mm":525,"crossing":3},
            {"u":2,"v":5,"cost":614,"length_mm":564,"crossing":4},
            {"u":3,"v":4,"cost":422,"length_mm":419,"crossing":5},
            {"u":4,"v":5,"cost":794,"length_mm":522,"crossing":6}],
            "crossings":[
            {"price":2467,"capacity_mm2":120.0},
            {"price":2294,"capacity_mm2":120.0},
            {"price":3287,"capacity_mm2":120.0},
            {"price":3677,"capacity_mm2":120.0},
            {"price":1037,"capacity_mm2":120.0},
            {"price":1030,"capacity_mm2":120.0},
            {"price":3979,"capacity_mm2":120.0}],
            "cables":[
            {"id":0,"source":4,"area_mm2":24.99,"max_length_mm":90000},
            {"id":10,"source":2,"area_mm2":38.72,"max_length_mm":90000}],
            "answer":{"cost":11307,"bound":null,
            "paths":[
            [5,1],
            [2,0]]}}
        "#]]
        .assert_eq(&solved().write());
    }

    #[test]
    fn areas_keep_two_decimals_and_no_more() {
        assert_eq!(hundredths(30.19).unwrap(), 3_019);
        assert_eq!(hundredths(0.29).unwrap(), 29);
        for odd in [-1.0, 0.125, f64::NAN, f64::INFINITY, 1e10] {
            assert!(hundredths(odd).is_err(), "{odd}");
        }
    }

    #[test]
    fn a_fault_is_told_in_a_sentence() {
        let told = |text: &str| Instance::read(text).unwrap_err().to_string();
        assert!(told("{}").starts_with("This is not a routing instance"));
        let no_sink = solved().write().replace("\"sink\":0", "\"sink\":60");
        assert_eq!(told(&no_sink), "The sink is not one of the nodes.");
    }
}
