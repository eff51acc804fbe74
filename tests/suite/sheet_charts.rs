//! Charts as drawings: sound XML, every name once, the same letters for the same chart.

use crate::sheet_kit::{about, chart};
use equipour::chart::{Hue, MarkKind, SeriesKind};
use equipour::sheet::{Block, Layout, Paper, chart_block, chart_svg, lay_out, pdf};
use resvg::usvg::roxmltree::{Document, Node};

fn texts(document: &Document<'_>) -> Vec<String> {
    let named = |node: &Node<'_, '_>| node.has_tag_name("text");
    let found = document.descendants().filter(named);
    found
        .filter_map(|node| node.text().map(str::to_owned))
        .collect()
}

fn number(node: &Node<'_, '_>, name: &str) -> f64 {
    let value = node.attribute(name).and_then(|value| value.parse().ok());
    value.unwrap_or_else(|| panic!("no {name}"))
}

#[test]
fn a_drawing_is_sound_xml_with_title_description_and_every_name() {
    let drawing = chart_svg(&chart(), 640.0, 400.0, true);
    let document = Document::parse(&drawing.svg).expect("sound XML");
    let texts = texts(&document);
    for name in [
        "before <&> after",
        "this drink",
        "sour, g/L",
        "sweet, g/L",
        "first",
        "second",
        "shaken",
        "Sweet against sour",
        "120",
    ] {
        assert!(
            texts.iter().any(|text| text == name),
            "{name} is not in {texts:?}"
        );
    }
    let root = document.root_element();
    let child = |name: &str| root.children().find(|node| node.has_tag_name(name));
    assert_eq!(
        child("title").and_then(|node| node.text()),
        Some("sweet against sour")
    );
    assert_eq!(
        child("desc").and_then(|node| node.text()),
        Some(chart().summary.as_str())
    );
    assert_eq!(
        (number(&root, "width"), number(&root, "height")),
        (640.0, 400.0)
    );
    assert!(drawing.lacks.is_empty());
}

#[test]
fn the_same_chart_gives_the_same_letters() {
    let [one, other] = [(); 2].map(|()| chart_svg(&chart(), 512.5, 300.0, false));
    assert_eq!(one, other);
}

#[test]
fn marks_stand_where_their_values_say() {
    let mut chart = chart();
    chart.series.clear();
    for mark in &mut chart.marks {
        mark.kind = MarkKind::Present;
    }
    let drawing = chart_svg(&chart, 640.0, 400.0, false);
    let document = Document::parse(&drawing.svg).expect("sound XML");
    let circles: Vec<Node<'_, '_>> = document
        .descendants()
        .filter(|node| node.has_tag_name("circle"))
        .collect();
    assert_eq!(circles.len(), 2);
    // Grid numbers tell where values stand: the marks are read off against them.
    let place = |text: &str, along: &str| {
        let mut all = document
            .descendants()
            .filter(|node| node.text() == Some(text));
        let found = all
            .find(|node| node.has_tag_name("text"))
            .expect("a number");
        number(&found, along)
    };
    let (two, six) = (place("2", "x"), place("6", "x"));
    assert!((number(&circles[0], "cx") - two).abs() < 0.02);
    assert!((number(&circles[1], "cx") - six).abs() < 0.02);
    let level = number(&circles[1], "cy");
    assert!((level - number(&circles[0], "cy")).abs() < 0.02);
    let (forty, eighty) = (place("40", "y"), place("80", "y"));
    let lift = 12.0 * 0.36;
    assert!((level - (f64::midpoint(forty, eighty) - lift)).abs() < 0.02);
}

#[test]
fn hues_keep_shapes_and_dashes_of_their_own() {
    let hues = [
        Hue::Sweet,
        Hue::Sour,
        Hue::Strength,
        Hue::Bitter,
        Hue::Water,
        Hue::Fat,
    ];
    let mut shapes = Vec::new();
    let mut dashes = Vec::new();
    for hue in hues {
        let mut chart = chart();
        chart.series.retain(|series| series.name == "first");
        chart.series[0].hue = hue;
        chart.marks.truncate(1);
        chart.marks[0].kind = MarkKind::Reading;
        chart.marks[0].hue = hue;
        chart.marks[0].name.clear();
        let drawing = chart_svg(&chart, 640.0, 400.0, false);
        let lines = || drawing.svg.lines();
        let mark = lines().rfind(|line| line.starts_with("<path") || line.starts_with("<circle"));
        let mark = mark
            .expect("a mark")
            .split(" fill")
            .next()
            .map(str::to_owned);
        shapes.push(mark);
        let line = lines()
            .find(|line| line.contains("stroke-width=\"1.8\""))
            .expect("a line");
        dashes.push(line.split("dasharray").nth(1).map(str::to_owned));
    }
    for all in [shapes, dashes] {
        let mut different = all.clone();
        different.sort();
        different.dedup();
        assert_eq!(different.len(), hues.len(), "{all:?}");
    }
}

#[test]
fn names_never_lie_over_each_other() {
    let mut crowded = chart();
    let mark = crowded.marks[0].clone();
    for place in 0..40 {
        let mut mark = mark.clone();
        mark.name = format!("mark {place}");
        mark.at = [f64::from(place % 8), f64::from(place) * 2.5];
        mark.rank = 5;
        crowded.marks.push(mark);
    }
    let drawing = chart_svg(&crowded, 400.0, 260.0, false);
    let document = Document::parse(&drawing.svg).expect("sound XML");
    let halo = |node: &Node<'_, '_>| node.attribute("fill-opacity") == Some("0.8");
    let boxes: Vec<[f64; 4]> = document
        .descendants()
        .filter(halo)
        .map(|node| {
            let [x, y] = ["x", "y"].map(|name| number(&node, name));
            [
                x + 1.0,
                y,
                x + number(&node, "width") - 1.0,
                y + number(&node, "height"),
            ]
        })
        .collect();
    assert!(boxes.len() > 8, "{}", boxes.len());
    for (place, one) in boxes.iter().enumerate() {
        for other in &boxes[..place] {
            let across = one[2].min(other[2]) - one[0].max(other[0]);
            let down = one[3].min(other[3]) - one[1].max(other[1]);
            assert!(across < 0.05 || down < 0.05, "{one:?} {other:?}");
        }
    }
}

#[test]
fn broken_numbers_leave_a_sound_drawing() {
    let mut chart = chart();
    chart.series[1].points.push([f64::NAN, f64::INFINITY]);
    chart.series[0].kind = SeriesKind::Band;
    chart.marks[0].at = [f64::NAN, 1.0];
    chart.x.to = chart.x.from;
    chart.y.from = f64::NAN;
    for size in [[640.0, 400.0], [1.0, 1.0], [f64::NAN, 9.9e9]] {
        let drawing = chart_svg(&chart, size[0], size[1], true);
        let document = Document::parse(&drawing.svg).expect("sound XML");
        assert!(!drawing.svg.contains("NaN") && !drawing.svg.contains("inf\""));
        assert!(document.root_element().has_children());
    }
}

#[test]
fn letters_of_a_chart_that_the_font_lacks_are_named() {
    let mut chart = chart();
    chart.marks[1].name = "酒 \u{1}".to_owned();
    let drawing = chart_svg(&chart, 640.0, 400.0, false);
    assert_eq!(drawing.lacks, ['\u{1}', '酒']);
    assert!(drawing.svg.contains(">� �<"), "{}", drawing.svg);
    let layout = Layout::on(Paper::A4);
    let laid = lay_out(&[chart_block(&chart, 120.0, 60.0)], &layout, &about());
    let laid = laid.expect("it fits");
    assert_eq!(laid.lacks, ['\u{1}', '酒']);
    pdf(&laid).expect("it is accessible");
}

#[test]
fn a_chart_on_a_sheet_is_told_in_words() {
    let Block::Figure { alt, width_mm, .. } = chart_block(&chart(), 120.0, 60.0) else {
        panic!("it is a figure");
    };
    assert_eq!(width_mm, 120.0);
    assert_eq!(
        alt,
        "sweet against sour. The drink stands at 60 g/L of sugar and 6 g/L of acid."
    );
}
