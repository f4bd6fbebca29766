//! All jobs into one file, and back.

use borewright_core::file::job::Archive;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;
use yew::prelude::*;

use super::Told;
use crate::browser::{clock, files, jobs};
use crate::panels::icons;
use crate::parts::{FilePress, Press};

#[derive(Properties, PartialEq)]
pub struct ArchivesProps {
    /// Called when something was done.
    pub ondone: Callback<Told>,
}

/// A press each.
#[component]
pub fn Archives(props: &ArchivesProps) -> Html {
    let told = props.ondone.reform(|sentence: String| Told {
        sentence,
        undo: None,
    });
    let onsave = {
        let told = told.clone();
        Callback::from(move |()| {
            let told = told.clone();
            spawn_local(async move {
                match jobs::archive().await {
                    Ok(bytes) => {
                        let name = format!("jobs-{}.borewright", clock::today());
                        files::save(&name, "application/octet-stream", &bytes);
                    }
                    Err(sentence) => told.emit(sentence),
                }
            });
        })
    };
    let onfile = Callback::from(move |file: File| {
        let told = told.clone();
        spawn_local(async move { told.emit(bring_back(&file).await) });
    });
    html! {
        <div class="JobsBegin">
            <Press label="Save all jobs to one file" icon={icons::SAVE} onpress={onsave} />
            <FilePress label="Bring jobs back from such a file" icon={icons::OPEN} {onfile} accept=".borewright" />
        </div>
    }
}

/// Puts the jobs of a file on this device; says what came of it.
async fn bring_back(file: &File) -> String {
    let read = match files::read(file).await {
        Ok(bytes) => Archive::read(&bytes),
        Err(sentence) => return sentence,
    };
    let Some(archive) = read else {
        return String::from(
            "This file holds no jobs. Choose one that was saved with all jobs in it.",
        );
    };
    let damaged = match archive.damaged {
        true => " A part of the file is damaged; what could be read is here.",
        false => "",
    };
    match jobs::take_in(archive).await {
        Ok(0) => format!("Every job of that file is on this device already.{damaged}"),
        Ok(1) => format!("1 job came back.{damaged}"),
        Ok(came) => format!("{came} jobs came back.{damaged}"),
        Err(sentence) => sentence,
    }
}
