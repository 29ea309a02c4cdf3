//! The text of a section as paragraphs and lists.

/// A run of lines of one sort.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Block {
    /// Words, with their own line ends.
    Words(String),
    /// What stood behind "- ", a line each.
    List(Vec<String>),
}

/// A text as it is read: lines that begin with "- " are a list, an empty line begins a paragraph.
pub(super) fn blocks(text: &str) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut begins = true;
    for line in text.lines() {
        let line = line.trim_end();
        match (line.strip_prefix("- "), blocks.last_mut()) {
            (Some(item), Some(Block::List(items))) if !begins => items.push(item.to_owned()),
            (Some(item), _) => blocks.push(Block::List(vec![item.to_owned()])),
            (None, _) if line.is_empty() => {}
            (None, Some(Block::Words(words))) if !begins => {
                words.push('\n');
                words.push_str(line);
            }
            (None, _) => blocks.push(Block::Words(line.to_owned())),
        }
        begins = line.is_empty();
    }
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_and_paragraphs_are_told_apart() {
        let words = |text: &str| Block::Words(text.to_owned());
        let list = |items: &[&str]| Block::List(items.iter().map(|item| (*item).to_owned()).collect());
        assert_eq!(blocks(""), []);
        assert_eq!(blocks("One\ntwo\n\nthree"), [words("One\ntwo"), words("three")]);
        assert_eq!(
            blocks("Seen:\n- a\n- b\nand so on"),
            [words("Seen:"), list(&["a", "b"]), words("and so on")]
        );
        assert_eq!(blocks("- a\n\n- b"), [list(&["a"]), list(&["b"])]);
        assert_eq!(blocks("-5 degrees"), [words("-5 degrees")]);
    }
}
