use equipour::sheet::*;
fn s(t: &str) -> String {
    t.to_owned()
}
fn main() {
    let row = |a: &[&str]| a.iter().map(|t| s(t)).collect::<Vec<_>>();
    let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" width="400" height="220"><rect width="400" height="220" fill="#ffffff"/><text x="20" y="40" font-family="Noto Sans" font-size="16">A chart</text><circle cx="200" cy="110" r="60" fill="#c47410" fill-opacity="0.5"/></svg>"##;
    let svg = std::fs::read_to_string("/tmp/h7/chart.svg").unwrap_or(svg.to_owned());
    let blocks = vec![
        Block::Title {
            text: s("The Long Orchard"),
            under: s("A stirred twist with apple brandy, sherry and salted honey, served up"),
        },
        Block::Pair {
            share: 0.58,
            left: vec![
                Block::Heading(s("Recipe")),
                Block::Table {
                    columns: vec![
                        Column::words("Ingredient", 1.0),
                        Column::figures("ml"),
                        Column::figures("fl oz"),
                        Column::figures("Share"),
                    ],
                    rows: vec![
                        row(&["Apple brandy, 45 %, aged in oak", "45", "1½", "50 %"]),
                        row(&["Fino sherry", "22.5", "¾", "25 %"]),
                        row(&["Salted honey syrup 2:1, house-made", "7.5", "¼", "8.3 %"]),
                        row(&["Orange bitters", "2 dashes", "", ""]),
                    ],
                },
                Block::Small(s("Batch of 1 L: multiply by 13.3. Poured at 20 °C, ±2 %.")),
                Block::Heading(s("Method")),
                Block::List {
                    numbered: true,
                    items: vec![
                        s("Chill a coupe of 150 ml in the freezer for ten minutes."),
                        s(
                            "Stir all with 120 g of ice cubes for 30 s at −18 °C, until the drink reads −2 °C.",
                        ),
                        s(
                            "Strain into the coupe; garnish with a thin slice of apple, cut at the last moment.",
                        ),
                    ],
                },
            ],
            right: vec![
                Block::Boxed(vec![
                    Block::Heading(s("In the glass")),
                    Block::Table {
                        columns: vec![Column::words("", 1.0), Column::figures("")],
                        rows: vec![
                            row(&["Strength", "24.8 % vol"]),
                            row(&["Sugar", "61 g/L"]),
                            row(&["Acid", "2.1 g/L"]),
                            row(&["Volume", "112 ml"]),
                            row(&["Water from ice", "31 ml"]),
                        ],
                    },
                ]),
                Block::Heading(s("Allergens")),
                Block::Paragraph(s("Contains sulphites (sherry). Honey is not for infants.")),
            ],
        },
        Block::Heading(s("Why it works")),
        Block::Paragraph(s(
            "Sherry takes the place of vermouth: half the sugar, twice the acetaldehyde, and a salty end that honey softens. The brandy’s orchard fruit stands in front; the finish is dry, nutty and long. A twist that keeps the sweet–sour balance of its parent within one noticeable difference while strength falls by two points. Ωμέγα, Виски, Hà Nội, cà phê sữa đá, Žižkov, Ærø, €12, ⅓, and a lacking 酒 here, שלום too.",
        )),
        Block::Figure {
            svg: svg.clone(),
            width_mm: 170.0,
            height_mm: 75.0,
            alt: s("A chart that shows a disc"),
        },
        Block::Rule,
        Block::List {
            numbered: false,
            items: vec![
                s("Alcohol: serve to adults only; follow the local code."),
                s("Keep the syrup below 5 °C and use it within two weeks."),
            ],
        },
        Block::Heading(s("Costs and sources")),
        Block::Table {
            columns: vec![
                Column::words("Part", 2.0),
                Column::words("Source", 3.0),
                Column::figures("Price"),
                Column::figures("Cost"),
            ],
            rows: (0..14)
                .map(|i| {
                    row(&[
                        "Apple brandy",
                        "measured in the house, three lots, 2026",
                        "€28.40 / 0.7 L",
                        &format!("€{:.2}", 1.82 * f64::from(i)),
                    ])
                })
                .collect(),
        },
        Block::Small(s(
            "Prices with tax. Figures are predictions unless they say measured.",
        )),
    ];
    let about = About {
        title: s("The Long Orchard"),
        language: s("en"),
        author: Some(s("A. Maker")),
        date: None,
    };
    let mut layout = Layout::on(Paper::A4);
    layout.foot = s("Bar Orchard · version 3");
    let laid = lay_out(&blocks, &layout, &about).unwrap();
    println!("{:?}", laid.lacks_said());
    std::fs::create_dir_all("/tmp/h7").unwrap();
    std::fs::write("/tmp/h7/look.pdf", pdf(&laid).unwrap()).unwrap();
    for (i, p) in laid.pages.iter().enumerate() {
        std::fs::write(format!("/tmp/h7/look{i}.png"), png(p, 110.0).unwrap()).unwrap();
    }
    let mut layout = Layout::on(Paper::Card);
    layout.most_pages = 9;
    let mut card = blocks.clone();
    card.retain(|b| !matches!(b, Block::Figure { .. } | Block::Pair { .. }));
    let laid = lay_out(&card, &layout, &about).unwrap();
    for (i, p) in laid.pages.iter().enumerate() {
        std::fs::write(format!("/tmp/h7/card{i}.png"), png(p, 200.0).unwrap()).unwrap();
    }
    let mut l1 = Layout::on(Paper::A4);
    l1.most_pages = 1;
    println!("{}", lay_out(&blocks, &l1, &about).unwrap_err());
    println!(
        "{:?}",
        lay_out_fitting(&blocks, &l1, &about).map(|l| l.size_pt)
    );
}
