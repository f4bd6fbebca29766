//! What a damaged file cost, in sentences a person can act on.

/// Sentences beyond this many are counted, not kept.
const MOST: usize = 60;

/// Gathers losses while a file is read.
#[derive(Debug, Default)]
pub(super) struct Losses {
    sentences: Vec<String>,
    more: usize,
}

impl Losses {
    /// Notes one loss.
    pub fn say(&mut self, sentence: impl Into<String>) {
        let sentence = sentence.into();
        if self.sentences.contains(&sentence) {
            return;
        }
        match self.sentences.len() < MOST {
            true => self.sentences.push(sentence),
            false => self.more += 1,
        }
    }

    /// Every sentence, the last one counting those beyond the most that are kept.
    pub fn into_sentences(mut self) -> Vec<String> {
        if self.more > 0 {
            let more = self.more;
            self.sentences
                .push(format!("{more} more parts were left out."));
        }
        self.sentences
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_losses_are_counted() {
        let mut losses = Losses::default();
        (0..MOST + 7).for_each(|n| losses.say(format!("Wall {n} is gone.")));
        losses.say("Wall 3 is gone.");
        let said = losses.into_sentences();
        assert_eq!(said.len(), MOST + 1);
        assert_eq!(said[MOST], "7 more parts were left out.");
    }
}
