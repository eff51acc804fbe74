//! What the tests of sheets share: an example with every kind of block, and an outside reader of PDF.

use equipour::chart::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use equipour::sheet::{
    About, Block, Column, Drawn, Item, Laid, Layout, Paper, chart_block, lay_out,
};
use std::path::Path;
use std::process::Command;

pub(crate) fn about() -> About {
    About {
        title: "Long orchard".to_owned(),
        language: "en".to_owned(),
        author: Some("A. Maker".to_owned()),
        date: None,
    }
}

pub(crate) fn texts(cells: &[&str]) -> Vec<String> {
    cells.iter().map(|cell| (*cell).to_owned()).collect()
}

/// A small chart with two curves, an area and marks.
pub(crate) fn chart() -> Chart {
    let scale = |name: &str, to: f64| Scale {
        name: name.to_owned(),
        unit: "g/L".to_owned(),
        from: 0.0,
        to,
    };
    let series = |name: &str, kind, hue, points: &[[f64; 2]]| Series {
        name: name.to_owned(),
        points: points.to_vec(),
        kind,
        hue,
    };
    let mark = |name: &str, at, kind, hue| Mark {
        name: name.to_owned(),
        at,
        kind,
        hue,
        detail: String::new(),
        rank: 0,
    };
    Chart {
        title: "sweet against sour".to_owned(),
        summary: "The drink stands at 60 g/L of sugar and 6 g/L of acid.".to_owned(),
        x: scale("sour", 12.0),
        y: scale("sweet", 120.0),
        series: vec![
            series(
                "shaken",
                SeriesKind::Area,
                Hue::Quiet,
                &[[4.0, 20.0], [8.0, 20.0], [8.0, 45.0], [4.0, 45.0]],
            ),
            series(
                "first",
                SeriesKind::Line,
                Hue::Sweet,
                &[[0.0, 10.0], [5.0, 30.0], [11.0, 20.0]],
            ),
            series(
                "second",
                SeriesKind::Line,
                Hue::Sour,
                &[[0.0, 90.0], [5.0, 110.0], [11.0, 100.0]],
            ),
        ],
        marks: vec![
            mark(
                "before <&> after",
                [2.0, 60.0],
                MarkKind::Classic,
                Hue::Quiet,
            ),
            mark("this drink", [6.0, 60.0], MarkKind::Present, Hue::Accent),
        ],
        table: Table::default(),
    }
}

/// A sheet with every kind of block.
pub(crate) fn blocks() -> Vec<Block> {
    let recipe = vec![
        Block::Heading("Recipe".to_owned()),
        Block::Table {
            columns: vec![
                Column::words("Ingredient", 1.0),
                Column::figures("ml"),
                Column::figures("oz"),
            ],
            rows: vec![
                texts(&["Apple brandy", "45", "1½"]),
                texts(&["Sherry, dry and old enough to need two lines", "22.5", "¾"]),
                texts(&["Bitters", "2 dashes"]),
            ],
        },
        Block::Heading("Method".to_owned()),
        Block::List {
            numbered: true,
            items: texts(&[
                "Chill a glass of 150 ml.",
                "Stir with ice at −18 °C until it reads −2 °C, half a minute at least.",
            ]),
        },
    ];
    let beside = vec![
        Block::Boxed(vec![
            Block::Heading("In the glass".to_owned()),
            Block::Paragraph("Strength 24.8 % vol, sugar 61 g/L.".to_owned()),
        ]),
        Block::Small("Figures are predictions.".to_owned()),
    ];
    vec![
        Block::Title {
            text: "Long orchard".to_owned(),
            under: "A stirred twist, served up".to_owned(),
        },
        Block::Pair {
            left: recipe,
            right: beside,
            share: 0.6,
        },
        Block::Heading("Why it works".to_owned()),
        Block::Paragraph("Sherry takes the place of vermouth: half the sugar and a salty end that honey softens. The finish is dry, nutty and long.".to_owned()),
        chart_block(&chart(), 160.0, 70.0),
        Block::Rule,
        Block::List {
            numbered: false,
            items: texts(&["Follow the local code.", "Keep cold."]),
        },
        Block::Space(4.0),
        Block::Paragraph("The last words.".to_owned()),
    ]
}

pub(crate) fn laid() -> Laid {
    let layout = Layout {
        foot: "third edition".to_owned(),
        ..Layout::on(Paper::A4)
    };
    lay_out(&blocks(), &layout, &about()).expect("the example fits")
}

/// The letters of all blocks in reading order, without blanks.
pub(crate) fn letters_of(blocks: &[Block]) -> String {
    let mut all = String::new();
    for block in blocks {
        match block {
            Block::Title { text, under } => all += &[text.as_str(), under].concat(),
            Block::Heading(text) | Block::Paragraph(text) | Block::Small(text) => all += text,
            Block::List { numbered, items } => {
                for (place, item) in items.iter().enumerate() {
                    let label = if *numbered {
                        (place + 1).to_string()
                    } else {
                        "•".to_owned()
                    };
                    all += &[label, item.clone()].concat();
                }
            }
            Block::Table { columns, rows } => {
                all.extend(columns.iter().map(|column| column.head.as_str()));
                all.extend(rows.iter().flatten().map(String::as_str));
            }
            Block::Pair { left, right, .. } => all += &(letters_of(left) + &letters_of(right)),
            Block::Boxed(inner) => all += &letters_of(inner),
            Block::Figure { .. } | Block::Rule | Block::Space(_) => {}
        }
    }
    all.retain(|letter| !letter.is_whitespace());
    all
}

/// The letters on the pages, element by element, without blanks.
pub(crate) fn letters_on(laid: &Laid) -> String {
    let mut by_element = vec![String::new(); laid.elements.len()];
    for item in laid.pages.iter().flat_map(|page| &page.items) {
        let Some(element) = item.element else {
            continue;
        };
        match &item.drawn {
            Drawn::Text(run) => by_element[element] += &run.text,
            Drawn::Lacking(mark) => by_element[element].push(mark.letter),
            Drawn::Rectangle(..) | Drawn::Chart(_) => {}
        }
    }
    let mut all = by_element.concat();
    all.retain(|letter| !letter.is_whitespace());
    all
}

/// Left, top, right and bottom of a thing that means something, mm.
pub(crate) fn bounds(item: &Item) -> Option<[f64; 4]> {
    item.element?;
    match &item.drawn {
        Drawn::Text(run) => {
            let size = run.size_pt * equipour::sheet::MM_PER_PT;
            let (top, bottom) = (run.baseline_mm - 0.75 * size, run.baseline_mm + 0.2 * size);
            Some([run.x_mm, top, run.x_mm + run.width_mm(), bottom])
        }
        Drawn::Lacking(mark) => {
            let size = mark.size_pt * equipour::sheet::MM_PER_PT;
            let (top, bottom) = (
                mark.baseline_mm - 0.75 * size,
                mark.baseline_mm + 0.16 * size,
            );
            Some([mark.x_mm, top, mark.x_mm + 0.8 * size, bottom])
        }
        Drawn::Chart(chart) => {
            let area = chart.area;
            let (right, bottom) = (area.x_mm + area.width_mm, area.y_mm + area.height_mm);
            Some([area.x_mm, area.y_mm, right, bottom])
        }
        Drawn::Rectangle(..) => None,
    }
}

/// Runs a tool of poppler; `None` where it is not installed, unless `POPPLER_WANTED` is set.
#[expect(
    clippy::print_stderr,
    reason = "who runs the tests has to see what was spared"
)]
pub(crate) fn poppler(tool: &str, arguments: &[&str], folder: &Path) -> Option<String> {
    let ran = Command::new(tool)
        .args(arguments)
        .current_dir(folder)
        .output();
    let Ok(output) = ran else {
        assert!(
            std::env::var_os("POPPLER_WANTED").is_none(),
            "{tool} of poppler-utils is missing"
        );
        eprintln!("spared: {tool} of poppler-utils is not installed");
        return None;
    };
    assert!(output.status.success(), "{tool} fails: {output:?}");
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}
