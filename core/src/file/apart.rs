//! A plan as it crosses to another program on the same device: its text, and its drawings as they are.
//! Bytes in text take a third more room and all the time of reading.

use std::sync::Arc;

use super::{FileError, Opened, read, write};
use crate::plan::{Plan, Scan};

/// The text of a plan, and its drawings in the order of its levels.
pub fn apart(plan: &Plan) -> (Vec<u8>, Vec<Arc<Scan>>) {
    let mut thin = plan.clone();
    let mut scans = Vec::new();
    for level in &mut thin.levels {
        let Some(scan) = level.sheet.scan.take() else {
            continue;
        };
        level.sheet.scan = Some(Arc::new(Scan {
            media_type: scan.media_type.clone(),
            bytes: (scans.len() as u32).to_le_bytes().to_vec(),
            ..*scan
        }));
        scans.push(scan);
    }
    (write(&thin), scans)
}

/// The plan of such a text with its drawings. One that is not among them is left out.
///
/// # Errors
/// [`FileError`] where the text is none of a plan.
pub fn joined(text: &[u8], scans: &[Arc<Scan>]) -> Result<Opened, FileError> {
    let mut opened = read(text)?;
    for level in &mut opened.plan.levels {
        let thin = level.sheet.scan.take();
        let place = thin.and_then(|thin| thin.bytes.as_slice().try_into().ok());
        let place = place.map(u32::from_le_bytes);
        level.sheet.scan = place.and_then(|place| scans.get(place as usize)).cloned();
    }
    Ok(opened)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::sample;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]

        #[test]
        fn a_plan_comes_together_again(seed: u64, edits in 0_usize..200) {
            let plan = sample::plan(seed, edits);
            let (text, scans) = apart(&plan);
            let opened = joined(&text, &scans).unwrap();
            prop_assert_eq!(opened.losses, Vec::<String>::new());
            prop_assert_eq!(opened.plan, plan);
        }
    }

    #[test]
    fn a_drawing_that_is_not_there_is_left_out() {
        let bytes = include_bytes!("../../../static/demo/demo.json");
        let plan = read(bytes).unwrap().plan;
        let (text, scans) = apart(&plan);
        assert_eq!(scans.len(), 1);
        assert!(text.len() < 20_000);
        let opened = joined(&text, &[]).unwrap();
        assert!(opened.plan.levels[0].sheet.scan.is_none());
    }
}
