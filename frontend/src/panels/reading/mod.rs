//! A plan that came by link, to read on a phone: level by level, to agree to or to ask about, and to
//! sign. Nothing here changes the plan; what is said goes back as a link.

mod answers;
mod card;
mod receipt;
mod sign;

use std::rc::Rc;

use borewright_core::agreement::{Matter, Standing};
use borewright_core::file::link;
use borewright_core::picture::{self, Showing, Stress};
use borewright_core::plan::{Item, Level, LevelId, Said};
use yew::prelude::*;

use super::unsought::Unsought;
use crate::browser::assets;
use crate::drawing::PictureBox;
use crate::hooks::{use_act, use_desk, use_paper, use_standings};
use crate::parts::{Press, PressKind};
use crate::state::Act;
use answers::{Answers, Say, use_answers};
use card::Card;
use sign::Sign;

/// How wide a level is drawn, pixels; a narrower phone shows it a little smaller.
const WIDTH: f64 = 400.0;

/// The whole of it.
#[component]
pub fn Reading() -> Html {
    let desk = use_desk();
    let plan = &desk.session.plan;
    let standings = use_standings();
    let (answers, say) = use_answers(plan);
    let table = use_act(|()| Act::Read(false));
    let code = use_memo(Rc::as_ptr(plan), |_| {
        link::version(plan).code().unwrap_or_default()
    });
    let line = match plan.date.is_empty() {
        true => format!("Revision {} · version {code}", plan.revision),
        false => format!(
            "Revision {} · {} · version {code}",
            plan.revision, plan.date
        ),
    };
    let paper = use_paper();
    let of_level = |level: &Level| {
        html! {
            <LevelPart key={level.id.0} level={level.id} standings={standings.clone()}
                answers={answers.clone()} say={say.clone()} />
        }
    };
    let rest = standings
        .iter()
        .filter(|(matter, _)| matter.level.is_none());
    let rest: Vec<_> = rest.cloned().collect();
    html! {
        <main class="Reading">
            <header class="ReadingHead">
                <h1>{ &plan.title }</h1>
                if let Some(sentence) = paper { <p role="status"><b>{ sentence }</b></p> }
                <p>{ line }</p>
                if !plan.note.is_empty() { <p class="ReadingNote">{ &plan.note }</p> }
                <p class="Quiet">
                    { format!("From {}, to look at. Agree to what is right, ask about what is not, then sign at the end. Nothing to install, and nothing is sent until you send it.", assets::origin()) }
                </p>
                <Press label="Show the drawing" kind={PressKind::Quiet} onpress={table} />
            </header>
            if !desk.session.design.is_sought() { <Unsought /> }
            { for plan.levels.iter().map(of_level) }
            <Part title="Closet, dates and job" matters={rest} answers={answers.clone()} say={say.clone()} />
            if desk.session.design.is_sought() { <Sign {standings} {answers} /> }
        </main>
    }
}

#[derive(Properties, PartialEq)]
struct LevelPartProps {
    level: LevelId,
    standings: Rc<Vec<(Matter, Standing)>>,
    answers: Rc<Answers>,
    say: Callback<Say>,
}

/// A level: its drawing, its drops, the holes in what bears.
#[component]
fn LevelPart(props: &LevelPartProps) -> Html {
    let desk = use_desk();
    let Some(level) = desk.session.plan.level(props.level) else {
        return html! {};
    };
    let here = |holes: bool| -> Vec<(Matter, Standing)> {
        let is_meant = |(matter, _): &&(Matter, Standing)| {
            let is_holes = !matches!(matter.item, Item::Drop(_));
            matter.level == Some(props.level) && is_holes == holes
        };
        props.standings.iter().filter(is_meant).cloned().collect()
    };
    let (answers, say) = (&props.answers, &props.say);
    html! {
        <section class="ReadingLevel" aria-label={level.name.clone()}>
            <h2>{ &level.name }</h2>
            <LevelPicture level={props.level} name={level.name.clone()} />
            <Part title="Drops" matters={here(false)} answers={answers.clone()} say={say.clone()} />
            <Part title="Holes in what bears" matters={here(true)} answers={answers.clone()} say={say.clone()} />
        </section>
    }
}

#[derive(Properties, PartialEq)]
struct LevelPictureProps {
    level: LevelId,
    name: String,
}

/// A level as it is drawn, as wide as a phone.
#[component]
fn LevelPicture(props: &LevelPictureProps) -> Html {
    let desk = use_desk();
    let (plan, design) = (&desk.session.plan, &desk.session.design);
    let level = props.level;
    let picture = use_memo((Rc::as_ptr(plan), Rc::as_ptr(design), level), |_| {
        let outline = design.framing.level(level).map(|framing| &framing.outline);
        let (low, high) = outline.and_then(|outline| outline.bounds())?;
        let across = ((high - low).x / WIDTH).max(1.0);
        let showing = Showing::on_screen(across, Stress::Drops);
        Some(Rc::new(picture::level(plan, design, level, &showing)))
    });
    match &*picture {
        Some(picture) => {
            let label = format!("{} with its drops", props.name);
            html! { <PictureBox picture={picture.clone()} {label} /> }
        }
        None => html! { <p class="Quiet">{ "Nothing is drawn on this level." }</p> },
    }
}

#[derive(Properties, PartialEq)]
struct PartProps {
    title: AttrValue,
    matters: Vec<(Matter, Standing)>,
    answers: Rc<Answers>,
    say: Callback<Say>,
}

/// Items of one kind under one heading, and one tap to agree to all of them.
#[component]
fn Part(props: &PartProps) -> Html {
    if props.matters.is_empty() {
        return html! {};
    }
    let open: Vec<Item> = props
        .matters
        .iter()
        .filter(|(matter, standing)| {
            *standing != Standing::Unsettled && props.answers.of(matter.item).is_none()
        })
        .map(|(matter, _)| matter.item)
        .collect();
    let count = open.len();
    let agree = props.say.reform(move |()| {
        let say = |item: &Item| (*item, Some(Said::Agreed));
        open.iter().map(say).collect::<Say>()
    });
    let card = |(matter, standing): &(Matter, Standing)| {
        html! {
            <Card key={format!("{:?}", matter.item)} matter={matter.clone()} standing={standing.clone()}
                said={props.answers.of(matter.item).cloned()} say={props.say.clone()} />
        }
    };
    html! {
        <div class="ReadingPart" role="group" aria-label={props.title.clone()}>
            <h3>{ &props.title }</h3>
            <ul>{ for props.matters.iter().map(card) }</ul>
            if count > 1 {
                <Press label={format!("Agree to the {count} left here")} onpress={agree} />
            }
        </div>
    }
}
