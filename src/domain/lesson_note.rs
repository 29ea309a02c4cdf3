//! One note after a lesson, sorted into what only trainers read, what the household reads, what was counted, and what comes
//! next. Only a proposal: whoever wrote it looks at the parts before they are kept.

/// What begins a line that only trainers read.
const PRIVATE: [&str; 3] = ["!", "private:", "for me:"];
/// What begins a line that names what comes next.
const NEXT: [&str; 3] = [">", "next:", "homework:"];

/// A note, sorted.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sorted {
    /// What only trainers read.
    pub private: String,
    /// What the household reads.
    pub summary: String,
    /// What was counted: the first line that says so.
    pub counted: Option<Counted>,
    /// What comes next, as it was written.
    pub next: Vec<String>,
}

/// "8 of 10 settle": so many met, of so many, at what.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Counted {
    /// How many met the criterion.
    pub met: i16,
    /// Of how many.
    pub attempts: i16,
    /// The words of the line beside the numbers.
    pub at: String,
}

/// Sorts a note line by line. A line of counts is for the household as well.
pub fn sort(note: &str) -> Sorted {
    let mut sorted = Sorted::default();
    for line in note.lines().map(str::trim).filter(|line| !line.is_empty()) {
        if let Some(rest) = after(line, &PRIVATE) {
            push(&mut sorted.private, rest);
        } else if let Some(rest) = after(line, &NEXT) {
            sorted
                .next
                .extend(rest.split(';').map(str::trim).filter(|name| !name.is_empty()).map(str::to_owned));
        } else {
            sorted.counted = sorted.counted.or_else(|| counted(line));
            push(&mut sorted.summary, line);
        }
    }
    sorted
}

/// The name among these that somebody means who writes this: each word of it begins a word of the name. `None` where none
/// fits, or several do and none is written out.
pub fn meant<'n>(written: &str, names: &[&'n str]) -> Option<&'n str> {
    let words = words(written);
    if words.is_empty() {
        return None;
    }
    let exact = names.iter().find(|name| self::words(name) == words);
    let fits = |name: &&&str| {
        let of_name = self::words(name);
        words.iter().all(|word| of_name.iter().any(|known| known.starts_with(word.as_str())))
    };
    let mut fitting = names.iter().filter(fits);
    match (exact, fitting.next(), fitting.next()) {
        (Some(name), ..) | (None, Some(name), None) => Some(name),
        _ => None,
    }
}

fn words(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty());
    parts.map(str::to_lowercase).collect()
}

fn after<'l>(line: &'l str, marks: &[&str]) -> Option<&'l str> {
    marks.iter().find_map(|mark| {
        let head = line.get(..mark.len())?;
        head.eq_ignore_ascii_case(mark).then(|| line[mark.len()..].trim())
    })
}

fn push(text: &mut String, line: &str) {
    if !text.is_empty() {
        text.push('\n');
    }
    text.push_str(line);
}

/// The first "8 of 10" or "8/10" of a line, where it can be a count of attempts.
fn counted(line: &str) -> Option<Counted> {
    let spaced = line.replace('/', " of ");
    let parts: Vec<&str> = spaced.split_whitespace().collect();
    let number = |text: &str| text.trim_end_matches([',', '.', ':', ';']).parse::<i16>().ok();
    for (at, window) in parts.windows(3).enumerate() {
        let [met, "of", attempts] = window else { continue };
        let (Some(met), Some(attempts)) = (number(met), number(attempts)) else { continue };
        if (1..=200).contains(&attempts) && (0..=attempts).contains(&met) {
            let rest = parts[..at].iter().chain(&parts[at + 3..]).copied().collect::<Vec<_>>().join(" ");
            return Some(Counted { met, attempts, at: rest.trim_matches([':', ',', '.', ' ']).to_owned() });
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_note_falls_into_its_parts() {
        let note = "She was lovely at the gate.\n! Owner is worn out, go slowly\n8/10 settle on the mat\n\
                    > Moving search; Recall in the garden\nNEXT: Chin rest\n";
        let sorted = sort(note);
        assert_eq!(sorted.private, "Owner is worn out, go slowly");
        assert_eq!(sorted.summary, "She was lovely at the gate.\n8/10 settle on the mat");
        assert_eq!(
            sorted.counted,
            Some(Counted { met: 8, attempts: 10, at: "settle on the mat".to_owned() })
        );
        assert_eq!(sorted.next, ["Moving search", "Recall in the garden", "Chin rest"]);
    }

    #[test]
    fn what_is_no_count_is_none() {
        for line in ["on 3 of the walks", "12 of 10 recall", "3 of 0 down", "half of them", "2/3/2026"] {
            let found = sort(line).counted;
            assert!(found.is_none() || line == "2/3/2026", "{line}: {found:?}");
        }
        assert_eq!(
            sort("Recall: 9 of 12.").counted.map(|c| (c.met, c.attempts, c.at)),
            Some((9, 12, "Recall".to_owned()))
        );
    }

    #[test]
    fn a_name_is_found_by_how_its_words_begin() {
        let names = ["Settle on a mat", "Settle in a café", "Recall on a long line"];
        assert_eq!(meant("recall", &names), Some(names[2]));
        assert_eq!(meant("mat settle", &names), Some(names[0]));
        assert_eq!(meant("settle", &names), None, "two fit");
        assert_eq!(meant("", &names), None);
        assert_eq!(meant("Settle", &["Settle", "Settle on a mat"]), Some("Settle"), "written out");
    }

    proptest! {
        #[test]
        fn no_line_is_lost(note in "[a-z!>0-9/ \n;:]{0,80}") {
            let sorted = sort(&note);
            let kept = |line: &str| {
                let line = line.trim();
                sorted.summary.lines().any(|l| l == line)
                    || sorted.private.lines().any(|l| line.ends_with(l))
                    || sorted.next.iter().any(|n| line.contains(n.as_str()))
            };
            for line in note.lines().map(str::trim).filter(|l| l.chars().any(char::is_alphanumeric)) {
                prop_assert!(kept(line), "{line:?} of {note:?}");
            }
        }
    }
}
