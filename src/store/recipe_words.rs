//! Texts of a recipe from elsewhere, made plain.

/// Entities that recipes use beside numbers; names after HTML (from memory).
const ENTITIES: [(&str, &str); 26] = [
    ("amp", "&"),
    ("lt", "<"),
    ("gt", ">"),
    ("quot", "\""),
    ("apos", "'"),
    ("nbsp", " "),
    ("frac12", "½"),
    ("frac14", "¼"),
    ("frac34", "¾"),
    ("frac13", "⅓"),
    ("frac23", "⅔"),
    ("deg", "°"),
    ("ndash", "–"),
    ("mdash", "—"),
    ("lsquo", "‘"),
    ("rsquo", "’"),
    ("ldquo", "“"),
    ("rdquo", "”"),
    ("hellip", "…"),
    ("eacute", "é"),
    ("egrave", "è"),
    ("ccedil", "ç"),
    ("ntilde", "ñ"),
    ("auml", "ä"),
    ("ouml", "ö"),
    ("uuml", "ü"),
];
/// Marks of HTML that stand in texts (from memory).
const MARKS: [&str; 25] = [
    "p", "br", "li", "ul", "ol", "div", "span", "a", "b", "i", "u", "em", "strong", "small", "sup",
    "sub", "font", "img", "h1", "h2", "h3", "h4", "h5", "h6", "hr",
];
/// Those that end a line where they are closed.
const BLOCKS: [&str; 9] = ["p", "li", "div", "h1", "h2", "h3", "h4", "h5", "h6"];
/// Longest entity, in bytes between `&` and `;`.
const LONGEST_ENTITY: usize = 10;

/// The text without control characters; line ends stay, all of one kind.
pub(super) fn plain_text(text: &str, from_page: bool) -> String {
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    let text = if from_page { of_page(&text) } else { text };
    let kept: String = text
        .chars()
        .map(|letter| if letter == '\t' { ' ' } else { letter })
        .filter(|letter| *letter == '\n' || !letter.is_control())
        .collect();
    kept.trim().to_owned()
}

/// The text on one line.
pub(super) fn plain_line(text: &str) -> String {
    let line = text.replace(['\n', '\r', '\t', '\u{2028}', '\u{2029}'], " ");
    let kept: String = line.chars().filter(|letter| !letter.is_control()).collect();
    kept.trim().to_owned()
}

/// The text of a page without its marks, entities read.
fn of_page(text: &str) -> String {
    entities(&without_marks(text))
}

/// Marks of HTML go; those that end a paragraph, an item or a line leave a line end. What only looks
/// like a mark stays.
fn without_marks(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(begin) = rest.find('<') {
        out.push_str(&rest[..begin]);
        let mark = &rest[begin..];
        let inner = mark[1..].strip_prefix('/').unwrap_or(&mark[1..]);
        let name = |letter: char| letter.is_ascii_alphanumeric();
        let letters = inner.find(|letter| !name(letter)).unwrap_or(inner.len());
        let known = inner[..letters].to_ascii_lowercase();
        if !MARKS.contains(&known.as_str()) {
            out.push('<');
            rest = &mark[1..];
            continue;
        }
        let Some(end) = mark.find('>') else {
            // Nothing is closed from here on.
            rest = mark;
            break;
        };
        let closes = mark.starts_with("</") && BLOCKS.contains(&known.as_str());
        if closes || known == "br" {
            out.push('\n');
        }
        rest = &mark[end + 1..];
    }
    out.push_str(rest);
    out
}

fn entities(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(begin) = rest.find('&') {
        out.push_str(&rest[..begin]);
        let after = &rest[begin + 1..];
        let mut near = after.bytes().take(LONGEST_ENTITY + 1);
        let end = near.position(|byte| byte == b';');
        let meant = end.and_then(|end| entity(&after[..end]).map(|meant| (meant, end)));
        if let Some((meant, end)) = meant {
            out.push_str(&meant);
            rest = &after[end + 1..];
        } else {
            out.push('&');
            rest = after;
        }
    }
    out.push_str(rest);
    out
}

fn entity(name: &str) -> Option<String> {
    if let Some(number) = name.strip_prefix('#') {
        let code = match number.strip_prefix(['x', 'X']) {
            Some(hex) => u32::from_str_radix(hex, 16).ok()?,
            None => number.parse().ok()?,
        };
        return char::from_u32(code).map(String::from);
    }
    let found = ENTITIES.iter().find(|(known, _)| *known == name);
    found.map(|(_, meant)| (*meant).to_owned())
}
