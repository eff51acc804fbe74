//! Laws of pages: nothing is lost, nothing overlaps, nothing leaves the margins.

use crate::sheet_kit::{about, blocks, bounds, laid, letters_of, letters_on, texts};
use equipour::sheet::{
    Block, Column, Drawn, Laid, Layout, LayoutError, Paper, Role, lay_out, lay_out_fitting,
};
use proptest::prelude::*;

const HAIR: f64 = 1.0e-6;

fn words(most: usize) -> impl Strategy<Value = String> {
    let word = prop_oneof![
        8 => "[a-zäéøß]{1,12}",
        2 => "[0-9]{1,4}[.,]?[0-9]?",
        1 => "[A-Z]{1,3}-[a-z]{2,9}",
        1 => "[a-z]{40,90}",
        1 => Just("酒".to_owned()),
    ];
    prop::collection::vec(word, 0..most).prop_map(|words| words.join(" "))
}

fn simple() -> impl Strategy<Value = Block> {
    let cells = prop::collection::vec(prop::collection::vec(words(5), 0..4), 0..6);
    prop_oneof![
        (words(8), words(12)).prop_map(|(text, under)| Block::Title { text, under }),
        words(6).prop_map(Block::Heading),
        words(90).prop_map(Block::Paragraph),
        words(40).prop_map(Block::Small),
        (any::<bool>(), prop::collection::vec(words(20), 0..7))
            .prop_map(|(numbered, items)| Block::List { numbered, items }),
        cells.prop_map(|rows| Block::Table {
            columns: vec![
                Column::words("Name", 1.0),
                Column::figures("ml"),
                Column::words("", 0.5)
            ],
            rows,
        }),
        Just(Block::Rule),
        (0.0..30.0).prop_map(Block::Space),
    ]
}

fn any_blocks() -> impl Strategy<Value = Vec<Block>> {
    let some = || prop::collection::vec(simple(), 0..4);
    let block = prop_oneof![
        6 => simple(),
        1 => some().prop_map(Block::Boxed),
        1 => (some(), some(), 0.2..0.8)
            .prop_map(|(left, right, share)| Block::Pair { left, right, share }),
    ];
    prop::collection::vec(block, 0..9)
}

fn any_layout() -> impl Strategy<Value = Layout> {
    let paper = prop_oneof![Just(Paper::A4), Just(Paper::Letter), Just(Paper::Card)];
    (paper, 5.0..14.0, 0.0..20.0).prop_map(|(paper, size_pt, margins_mm)| Layout {
        size_pt,
        margins_mm,
        most_pages: 200,
        foot: "foot".to_owned(),
        ..Layout::on(paper)
    })
}

/// Where the last line stands, counted through all pages, mm.
fn end(laid: &Laid) -> f64 {
    let height = laid.pages[0].height_mm;
    let ends = laid.pages.iter().enumerate().flat_map(|(place, page)| {
        let found = page.items.iter().filter_map(bounds);
        found.map(move |[.., bottom]| place as f64 * height + bottom)
    });
    ends.fold(0.0, f64::max)
}

fn inside_and_apart(laid: &Laid, margin: f64) {
    for page in &laid.pages {
        let all: Vec<[f64; 4]> = page.items.iter().filter_map(bounds).collect();
        let (right, bottom) = (page.width_mm - margin, page.height_mm - margin);
        for (place, one) in all.iter().enumerate() {
            assert!(
                one[0] >= margin - HAIR && one[2] <= right + 1.0e-3,
                "{one:?}"
            );
            assert!(
                one[1] >= margin - HAIR && one[3] <= bottom + HAIR,
                "{one:?}"
            );
            for other in &all[..place] {
                let across = one[2].min(other[2]) - one[0].max(other[0]);
                let down = one[3].min(other[3]) - one[1].max(other[1]);
                assert!(across < 0.01 || down < 0.01, "{one:?} {other:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_letter_stands_on_the_pages_inside_the_margins_and_over_no_other(
        blocks in any_blocks(),
        layout in any_layout(),
    ) {
        let laid = match lay_out(&blocks, &layout, &about()) {
            Ok(laid) => laid,
            // A column may be too narrow for a letter; all else has to fit on so many pages.
            Err(LayoutError::TooWide { too_much_mm, .. }) => {
                let pair = blocks.iter().any(|block| matches!(block, Block::Pair { .. }));
                prop_assert!(too_much_mm > 0.0 && (pair || layout.paper == Paper::Card));
                return Ok(());
            }
            Err(LayoutError::TooTall { block, .. }) => {
                // A row is never cut; a word in a narrow column can be as tall as a page.
                let simple = matches!(blocks[block], Block::Paragraph(_) | Block::Title { .. } | Block::List { .. });
                prop_assert!(!simple, "{:?}", blocks[block]);
                return Ok(());
            }
            Err(other) => panic!("{other}"),
        };
        prop_assert_eq!(letters_on(&laid), letters_of(&blocks));
        inside_and_apart(&laid, layout.margins_mm);
    }

    #[test]
    fn no_heading_ends_a_page(
        parts in prop::collection::vec((words(6), 0.0..9.0, simple()), 1..30),
        layout in any_layout(),
    ) {
        // A rule below a heading follows it as well as any text.
        let parts = parts.into_iter().filter(|part| part.2 != Block::Rule).flat_map(|(head, space, block)| {
            [Block::Heading(format!("Head {head}")), Block::Space(space), block]
        });
        let end = Block::Paragraph("The end.".to_owned());
        let blocks: Vec<Block> = parts.chain([end]).collect();
        let Ok(laid) = lay_out(&blocks, &layout, &about()) else {
            return Ok(());
        };
        for page in &laid.pages {
            let lowest = page.items.iter().filter_map(|item| Some((item, bounds(item)?)));
            let last = lowest.max_by(|a, b| a.1[3].total_cmp(&b.1[3]));
            let element = last.and_then(|(item, _)| item.element);
            let ends = element.is_some_and(|element| {
                matches!(&laid.elements[element].role, Role::Heading { words, .. } if words.starts_with("Head "))
            });
            // Headings above each other may be taller than a page.
            let above = page.items.iter().filter_map(|item| item.element).all(|element| {
                matches!(laid.elements[element].role, Role::Heading { .. })
            });
            prop_assert!(!ends || above, "a heading ends a page");
        }
    }

    #[test]
    fn more_words_never_make_a_text_shorter(
        text in words(120),
        more in words(30),
        size_pt in 6.0..14.0,
    ) {
        let layout = Layout { size_pt, most_pages: 50, ..Layout::on(Paper::Card) };
        let ends = [text.clone(), format!("{text} {more}")].map(|text| {
            lay_out(&[Block::Paragraph(text)], &layout, &about()).map(|laid| end(&laid))
        });
        let [less, more] = ends;
        prop_assert!(less.expect("it fits") <= more.expect("it fits") + HAIR);
    }

    #[test]
    fn what_is_refused_on_fewer_pages_needs_more(blocks in any_blocks(), layout in any_layout()) {
        let Ok(laid) = lay_out(&blocks, &layout, &about()) else {
            return Ok(());
        };
        let needed = laid.pages.len();
        let exact = Layout { most_pages: needed, ..layout.clone() };
        prop_assert!(lay_out(&blocks, &exact, &about()).is_ok());
        if needed > 1 {
            let fewer = Layout { most_pages: needed - 1, ..layout };
            match lay_out(&blocks, &fewer, &about()) {
                Err(LayoutError::TooLong(over)) => {
                    prop_assert!(over.block < blocks.len() && over.pages == needed - 1);
                    prop_assert!(over.too_much_mm >= 0.0);
                }
                other => prop_assert!(false, "{:?}", other.map(|laid| laid.pages.len())),
            }
        }
    }
}

#[test]
fn the_example_holds_every_letter_inside_the_margins() {
    let laid = laid();
    assert_eq!(letters_on(&laid), letters_of(&blocks()));
    inside_and_apart(&laid, 20.0);
    assert!(laid.lacks.is_empty(), "{:?}", laid.lacks);
    let charts = laid.pages[0].items.iter();
    let charts = charts.filter(|item| matches!(item.drawn, Drawn::Chart(_)));
    assert_eq!(charts.count(), 1);
}

#[test]
fn a_refusal_names_the_first_block_that_does_not_fit_and_by_how_much() {
    let line = "word ".repeat(16);
    let mut blocks: Vec<Block> = (0..60)
        .map(|place| Block::Paragraph(format!("Part {place} {line}")))
        .collect();
    blocks.push(Block::Heading("Late heading".to_owned()));
    let layout = Layout {
        most_pages: 1,
        ..Layout::on(Paper::A4)
    };
    let whole = Layout {
        most_pages: 9,
        ..layout.clone()
    };
    let laid = lay_out(&blocks, &whole, &about()).expect("it fits on two");
    let first = laid.pages[1]
        .items
        .iter()
        .find_map(|item| match &item.drawn {
            Drawn::Text(run) if item.element.is_some() => run.text.split(' ').nth(1),
            _ => None,
        });
    let error = lay_out(&blocks, &layout, &about()).expect_err("it is too long");
    let LayoutError::TooLong(over) = &error else {
        panic!("{error}");
    };
    assert_eq!(Some(over.block.to_string().as_str()), first);
    assert!(
        error.to_string().contains(&format!("“Part {}", over.block)),
        "{error}"
    );
    // What is left over is what stands on the second page.
    let second = end(&laid) - laid.pages[0].height_mm - 20.0;
    assert!(
        (over.too_much_mm - second).abs() < 3.0,
        "{} {second}",
        over.too_much_mm
    );
}

#[test]
fn text_that_is_a_little_too_long_is_made_smaller_and_never_below_eight_points() {
    let of = |count: usize| [Block::Paragraph("word ".repeat(count))];
    let layout = Layout {
        most_pages: 1,
        ..Layout::on(Paper::A4)
    };
    let fitting = |count: usize| lay_out_fitting(&of(count), &layout, &about());
    assert_eq!(fitting(100).map(|laid| laid.size_pt), Ok(10.0));
    let mut last = 10.0;
    let mut refused = false;
    for count in (700..2200).step_by(50) {
        match fitting(count) {
            Ok(laid) => {
                assert!(laid.size_pt <= last && laid.size_pt >= 8.0 && !refused);
                last = laid.size_pt;
            }
            Err(LayoutError::TooLong(_)) => refused = true,
            Err(other) => panic!("{other}"),
        }
    }
    assert!(refused && last == 8.0, "{last}");
}

#[test]
fn a_long_table_repeats_its_heads_on_every_page_and_says_them_once() {
    let rows = (0..120)
        .map(|place| texts(&[&format!("row{place}"), "1.5"]))
        .collect();
    let columns = vec![Column::words("Ingredient", 1.0), Column::figures("Amount")];
    let layout = Layout {
        most_pages: 9,
        ..Layout::on(Paper::A4)
    };
    let laid = lay_out(&[Block::Table { columns, rows }], &layout, &about()).expect("it fits");
    assert!(laid.pages.len() > 2);
    let mut said = 0;
    for page in &laid.pages {
        let heads = page
            .items
            .iter()
            .filter(|item| matches!(&item.drawn, Drawn::Text(run) if run.text == "Ingredient"));
        let heads: Vec<_> = heads.collect();
        assert_eq!(heads.len(), 1);
        said += usize::from(heads[0].element.is_some());
    }
    assert_eq!(said, 1);
}

#[test]
fn figures_end_at_the_right_edge_of_their_column() {
    let rows = ["1", "22.5", "1 000.25"].map(|text| texts(&["name", text]));
    let columns = vec![Column::words("Name", 1.0), Column::figures("ml")];
    let blocks = [Block::Table {
        columns,
        rows: rows.to_vec(),
    }];
    let laid = lay_out(&blocks, &Layout::on(Paper::A4), &about()).expect("it fits");
    let ends = laid.pages[0]
        .items
        .iter()
        .filter_map(|item| match &item.drawn {
            Drawn::Text(run) if run.text.starts_with(char::is_numeric) => {
                Some(run.x_mm + run.width_mm())
            }
            _ => None,
        });
    let ends: Vec<f64> = ends.collect();
    assert_eq!(ends.len(), 3);
    assert!(
        ends.iter().all(|end| (end - 190.0).abs() < 0.01),
        "{ends:?}"
    );
}

#[test]
fn ten_thousand_words_flow_and_are_refused_where_pages_are_few() {
    let text = "The quick brown fox drinks a sour ".repeat(1430);
    let blocks = [
        Block::Paragraph(text.clone()),
        Block::List {
            numbered: true,
            items: vec![text],
        },
    ];
    let layout = Layout {
        most_pages: 500,
        ..Layout::on(Paper::A4)
    };
    let laid = lay_out(&blocks, &layout, &about()).expect("it flows");
    assert!(laid.pages.len() > 15);
    assert_eq!(letters_on(&laid), letters_of(&blocks));
    let few = lay_out_fitting(&blocks, &Layout::on(Paper::A4), &about());
    assert!(matches!(few, Err(LayoutError::TooLong(_))));
    let one_word = [Block::Paragraph("x".repeat(50_000))];
    let laid = lay_out(&one_word, &layout, &about()).expect("a word breaks inside");
    assert_eq!(letters_on(&laid).len(), 50_000);
}

#[test]
fn a_figure_that_is_taller_than_a_page_is_refused_as_such() {
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>".to_owned();
    let block = Block::Figure {
        svg,
        width_mm: 100.0,
        height_mm: 257.1,
        alt: "a tower".to_owned(),
        lacks: Vec::new(),
    };
    let error = lay_out(&[Block::Rule, block], &Layout::on(Paper::A4), &about());
    let error = error.expect_err("it is too tall");
    assert_eq!(error.to_string(), "taller than a page: “a tower”");
    assert!(matches!(error, LayoutError::TooTall { block: 1, .. }));
}

#[test]
fn sizes_that_are_no_lengths_and_figures_that_are_no_drawings_are_refused() {
    let figure = |svg: &str, width_mm: f64| Block::Figure {
        svg: svg.to_owned(),
        width_mm,
        height_mm: 10.0,
        alt: "words".to_owned(),
        lacks: Vec::new(),
    };
    let layout = Layout::on(Paper::A4);
    let said = |block: Block, layout: &Layout| {
        let refused = lay_out(&[block], layout, &about());
        refused.expect_err("it is refused").to_string()
    };
    assert!(said(figure("<svg", 10.0), &layout).contains("“words” cannot be read"));
    assert!(said(figure("<svg/>", f64::NAN), &layout).contains("must be positive"));
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>";
    assert!(said(figure(svg, 171.0), &layout).contains("too wide for its column by 1 mm"));
    let small = Layout {
        size_pt: f64::NAN,
        ..layout.clone()
    };
    assert!(said(Block::Rule, &small).contains("the size of text must be between 5 and 40 pt"));
    let wide = Layout {
        margins_mm: 99.0,
        ..layout
    };
    assert!(said(Block::Rule, &wide).contains("the margins must be between 0 and 95 mm"));
}
