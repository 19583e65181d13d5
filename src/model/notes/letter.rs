//! What stands above a letter: who wrote it to whom, and what about.

/// What such lines begin with, in small letters.
const HEADS: [&str; 6] = ["from", "to", "cc", "date", "sent", "subject"];

/// Takes the lines above a letter away; its subject, without what says that it is an answer, becomes the first line. Gives what was taken.
pub(super) fn opened(lines: &mut Vec<String>) -> Vec<String> {
    let first = lines.iter().position(|line| !line.trim().is_empty()).unwrap_or_default();
    let heads = lines.iter().skip(first).take_while(|line| head(line).is_some()).count();
    let subject =
        lines.iter().skip(first).take(heads).filter_map(|line| head(line)).find(|(head, _)| *head == "subject");
    // `To: taste` alone heads no letter.
    let Some((_, subject)) = subject.filter(|_| heads > 1) else { return Vec::new() };
    let subject = without_answer(subject).to_owned();
    lines
        .splice(first..first + heads, [subject])
        .filter(|line| head(line).is_none_or(|(head, _)| head != "subject"))
        .collect()
}

/// The head that a line begins with, and what stands behind it.
fn head(line: &str) -> Option<(&'static str, &str)> {
    let (word, rest) = line.trim().split_once(':')?;
    let head = HEADS.into_iter().find(|head| word.eq_ignore_ascii_case(head))?;
    (!rest.trim().is_empty()).then_some((head, rest.trim()))
}

/// A subject without `Re:` and `Fwd:`.
fn without_answer(mut subject: &str) -> &str {
    while let Some((_, rest)) = subject
        .split_once(':')
        .filter(|(word, _)| ["re", "fw", "fwd"].iter().any(|answer| word.eq_ignore_ascii_case(answer)))
    {
        subject = rest.trim_start();
    }
    subject
}

#[cfg(test)]
mod tests {
    use super::opened;

    #[test]
    fn the_subject_is_what_the_letter_is_about() {
        let mut lines: Vec<String> =
            ["From: Anne", "To: me", "Subject: Re: Fwd: knots", "", "500 g flour"].map(str::to_owned).to_vec();
        assert_eq!(opened(&mut lines), ["From: Anne", "To: me"]);
        assert_eq!(lines, ["knots", "", "500 g flour"]);
        let mut lines: Vec<String> = ["To: serve", "cut"].map(str::to_owned).to_vec();
        assert!(opened(&mut lines).is_empty() && lines.len() == 2);
    }
}
