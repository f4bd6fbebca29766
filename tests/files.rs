//! Saved plans: every file ever kept here opens whole and comes back byte for byte, and the houses
//! are what their descriptions say.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::path::{Path, PathBuf};

use borewright_core::design::Design;
use borewright_core::file;
use borewright_core::finding::Severity;
use borewright_core::plan::{DropKind, Level, Plan, Scan, Sheet};
use borewright_core::scan::residuals;
use borewright_core::shape::Pos;
use serde_json::Value;

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn plan(path: &Path) -> Plan {
    let bytes = std::fs::read(path).unwrap();
    let opened = file::read(&bytes).unwrap();
    assert!(opened.losses.is_empty(), "{path:?}: {:?}", opened.losses);
    assert!(
        file::write(&opened.plan) == bytes,
        "{path:?} changed when written again"
    );
    opened.plan
}

fn house(letter: char) -> Plan {
    plan(&folder("plans").join(format!("house-{letter}.json")))
}

#[test]
fn the_houses_are_as_described() {
    let counts = |plan: &Plan| {
        let of = |kind| plan.drops.iter().filter(|drop| drop.kind == kind).count();
        (
            plan.levels.len(),
            plan.drops.len(),
            of(DropKind::Camera),
            of(DropKind::Doorbell),
        )
    };
    assert_eq!(counts(&house('a')), (1, 24, 4, 1));
    assert_eq!(counts(&house('b')), (3, 38, 4, 1));
    let (levels, drops, ..) = counts(&house('c'));
    assert_eq!((levels, drops), (2, 46));
}

/// A file and a link that say an attic, or a closed roof, is over a level on which another stands: no edit
/// makes that. Both open with one sentence, and the level has the next one's floor over it.
#[test]
fn a_roof_under_another_level_is_told_and_mended() {
    use borewright_core::file::link::{self, Privacy};
    use borewright_core::plan::Above;
    use borewright_core::shape::Direction;
    let whole = house('b');
    let spaces = Design::of(&whole).framing.spaces.len();
    for roof in [Above::attic_over_trusses(Direction::ALONG_X), Above::CLOSED] {
        let mut wrong = whole.clone();
        let under = wrong.levels.len() - 2;
        wrong.levels[under].above = roof;
        let said = format!(
            "What is over {} could not be kept",
            wrong.levels[under].name
        );
        let of_file = file::read(&file::write(&wrong)).unwrap();
        let of_link = link::read(&link::write(&wrong, Privacy::Everything).unwrap()).unwrap();
        for opened in [of_file, of_link] {
            assert!(
                opened.losses.iter().any(|loss| loss.starts_with(&said)),
                "{:?}",
                opened.losses
            );
            assert_eq!(opened.plan.levels[under].above, Above::LEVEL);
            assert_eq!(Design::of(&opened.plan).framing.spaces.len(), spaces);
        }
    }
}

/// House A against the dimensions its sketch was drawn from.
#[test]
fn house_a_is_its_truth() {
    let truth = std::fs::read(folder("plans").join("house-a.truth.json")).unwrap();
    let truth: Value = serde_json::from_slice(&truth).unwrap();
    let (truth, plan) = (&truth["levels"][0], house('a'));
    let level = &plan.levels[0];
    let xy = |x: i32, y: i32| serde_json::json!([x, y]);
    let walls = truth["walls"].as_array().unwrap();
    assert_eq!(level.walls.len(), walls.len());
    for (wall, true_wall) in level.walls.iter().zip(walls) {
        assert_eq!(xy(wall.from.x, wall.from.y), true_wall["a"]);
        assert_eq!(xy(wall.to.x, wall.to.y), true_wall["b"]);
        assert_eq!(wall.role.name(), true_wall["role"]);
        assert_eq!(wall.lumber.name(), true_wall["lumber"]);
    }
    let openings = truth["openings"].as_array().unwrap();
    assert_eq!(level.openings.len(), openings.len());
    for (opening, true_opening) in level.openings.iter().zip(openings) {
        let wall = true_opening["wall"].as_u64().unwrap() as usize;
        assert_eq!(opening.wall, level.walls[wall].id);
        assert_eq!(opening.offset.0, true_opening["offset"]);
        assert_eq!(opening.width.0, true_opening["width"]);
    }
    let marks = truth["marks"].as_array().unwrap();
    let drops = marks.iter().filter(|mark| mark["kind"] != "closet");
    for (drop, mark) in plan.drops.iter().zip(drops) {
        assert_eq!(drop.cables.len() as u64, mark["cables"], "{}", drop.label());
    }
}

fn demo() -> Plan {
    plan(&folder("../static/demo/demo.json"))
}

#[test]
fn the_demo_is_scaled_and_has_nothing_to_stop_it() {
    let plan = demo();
    assert_eq!(plan.drops.len(), 22);
    let Sheet { placing, known, .. } = &plan.levels[0].sheet;
    assert!(placing.scaled);
    let off: Vec<f64> = residuals(placing, known).iter().map(|r| r.off).collect();
    assert_eq!(off.len(), 2);
    assert!(off.iter().all(|off| off.abs() < 20.0), "{off:?}");
    let design = Design::of(&plan);
    let stops = design
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Stop);
    assert_eq!(stops.map(|f| f.what.clone()).collect::<Vec<_>>(), [""; 0]);
}

#[test]
fn the_second_demo_has_a_drawing_under_each_storey_and_nothing_to_stop_it() {
    let plan = plan(&folder("../static/demo/two-storeys.json"));
    assert_eq!((plan.levels.len(), plan.drops.len()), (2, 28));
    for level in &plan.levels {
        assert!(level.sheet.placing.scaled && level.sheet.scan.is_some());
        under_its_walls(level);
    }
    let design = Design::of(&plan);
    let mut stops = design
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Stop);
    assert_eq!(stops.next(), None);
    let levels = |way: &borewright_core::route::Way| {
        let ends = way.moves.first().zip(way.moves.last());
        ends.map(|(first, last)| (first.from.z - last.to.z).abs() > 1_500.0)
    };
    let climbing = design
        .ways
        .ways
        .iter()
        .filter_map(levels)
        .filter(|far| *far);
    assert!(
        climbing.count() > 10,
        "cables come down from the upper storey"
    );
}

/// The faces of every wall lie on a pencil line of the demo's drawing, and the middles of its
/// rooms on bare paper.
#[test]
fn the_demos_drawing_lies_under_its_walls() {
    under_its_walls(&demo().levels[0]);
}

fn under_its_walls(level: &Level) {
    let scan = level.sheet.scan.as_ref().unwrap();
    assert!(scan.bytes.len() < 250_000);
    let picture = Picture::of(scan);
    for wall in &level.walls {
        let line = wall.line().unwrap();
        // Half a foot in from its first end no wall of the demo has an opening.
        for aside in [-0.5, 0.5] {
            let face = line.at(150.0, aside * wall.width().0);
            let pixel = level.sheet.placing.to_pixel(face);
            assert!(
                picture.darkest_near(pixel) < 120,
                "{} {aside}",
                wall.label()
            );
        }
    }
    for beside in level
        .rooms
        .iter()
        .map(|room| room.at.pos() + Pos::new(0.0, 300.0))
    {
        let pixel = level.sheet.placing.to_pixel(beside);
        assert!(picture.darkest_near(pixel) > 200, "{pixel:?}");
    }
}

struct Picture {
    width: usize,
    grey: Vec<u8>,
}

impl Picture {
    fn of(scan: &Scan) -> Self {
        let mut decoder = png::Decoder::new(std::io::Cursor::new(&scan.bytes));
        decoder.set_transformations(png::Transformations::EXPAND);
        let mut reader = decoder.read_info().unwrap();
        let mut bytes = vec![0; reader.output_buffer_size().unwrap()];
        let frame = reader.next_frame(&mut bytes).unwrap();
        assert_eq!((frame.width, frame.height), (scan.width, scan.height));
        let grey = bytes.chunks(3).map(|pixel| pixel[1]).collect();
        let width = scan.width as usize;
        Self { width, grey }
    }

    /// The darkest pixel within five of a place.
    fn darkest_near(&self, (u, v): (f64, f64)) -> u8 {
        let (u, v) = (u as usize, v as usize);
        let rows = v - 5..=v + 5;
        let row = |row: usize| &self.grey[row * self.width + u - 5..row * self.width + u + 6];
        rows.flat_map(row).copied().min().unwrap()
    }
}

/// The published description of a saved plan, JSON Schema 2020-12.
mod schema {
    use super::*;
    use boon::{Compiler, SchemaIndex, Schemas};
    use borewright_core::plan::edit::sample;

    struct Schema {
        schemas: Schemas,
        plan: SchemaIndex,
    }

    impl Schema {
        fn published() -> Self {
            let path = folder("../static/borewright-plan.schema.json");
            let text = std::fs::read(path).unwrap();
            let (mut compiler, mut schemas) = (Compiler::new(), Schemas::new());
            let name = "borewright-plan.schema.json";
            compiler
                .add_resource(name, serde_json::from_slice(&text).unwrap())
                .unwrap();
            let plan = compiler.compile(name, &mut schemas).unwrap();
            Self { schemas, plan }
        }

        fn fault(&self, value: &Value) -> Option<String> {
            let fault = self.schemas.validate(value, self.plan).err();
            fault.map(|fault| fault.to_string())
        }
    }

    fn saved(plan: &Plan) -> Value {
        serde_json::from_slice(&file::write(plan)).unwrap()
    }

    #[test]
    fn every_saved_plan_is_as_published() {
        let schema = Schema::published();
        let houses = [demo(), house('a'), house('b'), house('c'), Plan::new()];
        let random = (0..60).map(|seed| sample::plan(seed, 250));
        for plan in houses.into_iter().chain(random) {
            assert_eq!(schema.fault(&saved(&plan)), None);
        }
    }

    #[test]
    fn what_is_no_plan_is_not_as_published() {
        let schema = Schema::published();
        let harmed = |harm: fn(&mut Value)| {
            let mut value = saved(&house('a'));
            harm(&mut value);
            schema.fault(&value).is_some()
        };
        assert!(harmed(|plan| plan["version"] = 2.into()));
        assert!(harmed(|plan| plan["levels"] = Value::Array(Vec::new())));
        assert!(harmed(
            |plan| plan["levels"][0]["walls"][0]["role"] = "holding".into()
        ));
        assert!(harmed(
            |plan| plan["drops"][0]["cables"][0]["id"] = "one".into()
        ));
        assert!(harmed(|plan| plan["drops"][0]["place"]["on"] = "air".into()));
        assert!(harmed(|plan| plan["unheard"] = true.into()));
        assert!(!harmed(|_| {}));
    }
}

fn hostile(name: &str) -> Vec<u8> {
    std::fs::read(folder("files/hostile").join(name)).unwrap()
}

/// No more of anything than a plan keeps, whichever way it comes in, and each told by one sentence.
#[test]
fn more_than_a_plan_keeps_is_told_and_left_out() {
    use borewright_core::file::link;
    for name in [
        "panic-walls-2500-567chars.link",
        "panic-walls-8000-608chars.link",
        "panic-walls-15000-657chars.link",
    ] {
        let text = String::from_utf8(hostile(name)).unwrap();
        let opened = link::read(&link::decode_text(text.trim()).unwrap()).unwrap();
        let told = opened.losses.iter();
        let told: Vec<_> = told.filter(|s| s.contains("walls on one level")).collect();
        assert!(!told.is_empty(), "{name}: {:?}", opened.losses);
        assert!(
            opened
                .plan
                .levels
                .iter()
                .all(|level| level.walls.len() <= 600)
        );
    }
    let opened = file::read(&hostile("rooms-3000.json")).unwrap();
    assert!(
        opened
            .plan
            .levels
            .iter()
            .all(|level| level.rooms.len() <= 300)
    );
    assert!(!opened.losses.is_empty());
}

/// Marks of direction turn our own words round: none of them comes in.
#[test]
fn no_invisible_sign_comes_in() {
    let opened = file::read(&hostile("rtl-title.json")).unwrap();
    let written = String::from_utf8(file::write(&opened.plan)).unwrap();
    let turned = |sign: char| matches!(sign, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{200B}'..='\u{200F}');
    assert!(!written.contains(turned));
    assert!(!opened.plan.title.is_empty());
}

/// Read with semicolons, or tabs, no cell of any table begins like a formula.
#[test]
fn no_cell_is_a_formula_whatever_the_delimiter() {
    use borewright_core::report::csv::{Table, csv};
    let plan = file::read(&hostile("csv-semicolon.json")).unwrap().plan;
    let design = Design::of(&plan);
    for table in Table::ALL {
        let text = csv(table, &plan, &design);
        for cell in text.split([',', ';', '\t', '\n', '\r', '|']) {
            let begin = cell.trim_start_matches([' ', '"']);
            assert!(
                !begin.starts_with(['=', '+', '-', '@']),
                "{table:?}: {cell}"
            );
        }
    }
}
