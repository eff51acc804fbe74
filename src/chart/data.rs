//! What a chart consists of.

use crate::units::number;

/// What a colour stands for; each also keeps one mark shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hue {
    /// Sweetness.
    Sweet,
    /// Acidity.
    Sour,
    /// Strength.
    Strength,
    /// Bitterness.
    Bitter,
    /// Water.
    Water,
    /// Fat.
    Fat,
    /// The drink on screen.
    Accent,
    /// The target and what belongs to it.
    Ink,
    /// Background facts.
    Quiet,
}

/// Which mark is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MarkKind {
    /// The drink on screen: a filled disc with a rim.
    Present,
    /// Its parent: an open disc.
    Parent,
    /// An earlier trial: a small disc.
    Earlier,
    /// A trial that is starred: a small star.
    Starred,
    /// A classic: a small diamond.
    Classic,
    /// The classic that the drink twists: a large diamond.
    OwnClassic,
    /// A classic of which the source leaves an amount open: an open diamond.
    Incomplete,
    /// The target: a ring with a cross.
    Target,
    /// A proposal under the pointer: an open square.
    Ghost,
    /// A value along a line: a dot.
    Reading,
}

/// A named place on a chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Name, also the label beside it.
    pub name: String,
    /// Place in axis values.
    pub at: [f64; 2],
    /// Which mark.
    pub kind: MarkKind,
    /// Colour group.
    pub hue: Hue,
    /// What hovering reads.
    pub detail: String,
    /// Smaller numbers get their label first.
    pub rank: u8,
}

/// How a series is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeriesKind {
    /// A solid line.
    Line,
    /// A dashed line.
    Dashed,
    /// A line in long dashes: what is previewed.
    LongDashed,
    /// A dotted line: what was before.
    Dotted,
    /// A thin line in the background.
    Ray,
    /// A closed outline, faintly filled.
    Area,
    /// A closed outline, not filled.
    Outline,
    /// Where a prediction may lie: a closed outline, faintly filled, without a rim or a name.
    Cloud,
    /// Where a line may lie: its upper edge, then its lower edge, from left to right both times.
    Band,
}

impl SeriesKind {
    /// Whether a place across reads one value of it.
    pub fn is_curve(self) -> bool {
        matches!(
            self,
            Self::Line | Self::Dashed | Self::LongDashed | Self::Dotted
        )
    }
}

/// Points that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// Name, shown where it ends if it is a ray or an area.
    pub name: String,
    /// Points in axis values.
    pub points: Vec<[f64; 2]>,
    /// How it is drawn.
    pub kind: SeriesKind,
    /// Colour group.
    pub hue: Hue,
}

impl Series {
    /// Whether it marks one height, as a target does.
    fn is_level(&self) -> bool {
        let heights = self.points.iter().map(|point| point[1]);
        self.points
            .first()
            .is_some_and(|[_, first]| heights.clone().all(|height| height == *first))
    }

    /// The value at a place across, between the two points around it; `None` beyond its ends.
    fn value_at(&self, x: f64) -> Option<f64> {
        self.points.windows(2).find_map(|pair| {
            let [[x0, y0], [x1, y1]] = [*pair.first()?, *pair.last()?];
            let inside = x0 < x1 && (x0..=x1).contains(&x);
            inside.then(|| y0 + (y1 - y0) * (x - x0) / (x1 - x0))
        })
    }
}

/// Unit of an axis that counts what stands in order, so that its numbers are whole.
pub const IN_ORDER: &str = "in order";

/// One axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Scale {
    /// What it shows.
    pub name: String,
    /// In which unit.
    pub unit: String,
    /// Lower end of the frame.
    pub from: f64,
    /// Upper end of the frame.
    pub to: f64,
}

impl Scale {
    /// Whether only whole numbers stand for something on it.
    pub fn counts(&self) -> bool {
        self.unit == IN_ORDER
    }

    /// "sour, g/L".
    pub fn label(&self) -> String {
        format!("{}, {}", self.name, self.unit)
    }
}

/// A chart in rows and columns.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Column heads with units.
    pub columns: Vec<String>,
    /// Rows of text.
    pub rows: Vec<Vec<String>>,
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Title.
    pub title: String,
    /// One sentence that says what it shows.
    pub summary: String,
    /// Across.
    pub x: Scale,
    /// Up.
    pub y: Scale,
    /// Lines and areas, background first.
    pub series: Vec<Series>,
    /// Marks, background first.
    pub marks: Vec<Mark>,
    /// The same in rows and columns.
    pub table: Table,
}

impl Chart {
    /// What a place reads, with units; if asked, `along` the curve that is read there, with the
    /// curves drawn behind it under their own names.
    pub fn read_at(&self, [x, y]: [f64; 2], along: bool) -> String {
        let (across, unit) = (number(x, 1), &self.x.unit);
        let mut said = format!("{} {across} {unit}", self.x.name);
        let read = self.curve_at(x).filter(|_| along);
        let value = read.map_or(y, |(_, value)| value);
        let name = match read {
            Some((curve, _)) if curve.kind != SeriesKind::Line && curve.name != self.y.name => {
                format!("{}, {}", self.y.name, curve.name)
            }
            _ => self.y.name.clone(),
        };
        said = format!("{said}\n{name} {}", self.value_text(value));
        let Some((main, _)) = read else {
            return said;
        };
        let behind = |series: &&Series| {
            series.kind.is_curve() && series.kind != SeriesKind::Line && !series.is_level()
        };
        for series in self.series.iter().filter(behind) {
            let value = series.value_at(x).filter(|_| series.name != main.name);
            if let Some(value) = value {
                said = format!("{said}\n{} {}", series.name, self.value_text(value));
            }
        }
        said
    }

    /// The value at a place across, on the curve that is read there.
    pub fn along(&self, x: f64) -> Option<f64> {
        self.curve_at(x).map(|(_, value)| value)
    }

    /// What is read at a place across: the first solid curve that runs there, else the first broken
    /// one.
    fn curve_at(&self, x: f64) -> Option<(&Series, f64)> {
        let read = |solid: bool| {
            let curves = self.series.iter().filter(|series| series.kind.is_curve());
            let mut curves = curves.filter(|series| (series.kind == SeriesKind::Line) == solid);
            curves.find_map(|series| Some((series, series.value_at(x)?)))
        };
        read(true).or_else(|| read(false))
    }

    /// A value of the axis up, with its unit: "14.2 % vol".
    pub fn value_text(&self, value: f64) -> String {
        format!("{} {}", number(value, 1), self.y.unit)
            .trim_end()
            .to_owned()
    }

    /// The chart as text to paste: its sentence, and its table with tabs; its marks where it has none.
    pub fn as_text(&self) -> String {
        let mut lines = vec![self.title.clone(), self.summary.clone()];
        if self.table.rows.is_empty() {
            lines.push(format!("name\t{}\t{}", self.x.label(), self.y.label()));
            lines.extend(self.marks.iter().map(|mark| {
                let [x, y] = mark.at;
                format!("{}\t{}\t{}", mark.name, number(x, 2), number(y, 2))
            }));
        } else {
            lines.push(self.table.columns.join("\t"));
            lines.extend(self.table.rows.iter().map(|row| row.join("\t")));
        }
        lines.join("\n")
    }

    /// The mark nearest to a place, measured in shares of the frame; `None` beyond `reach`.
    pub fn nearest_mark(&self, at: [f64; 2], reach: f64) -> Option<&Mark> {
        let width = (self.x.to - self.x.from).abs().max(1.0e-12);
        let height = (self.y.to - self.y.from).abs().max(1.0e-12);
        let far = |mark: &Mark| ((mark.at[0] - at[0]) / width).hypot((mark.at[1] - at[1]) / height);
        self.marks
            .iter()
            .filter(|mark| far(mark) <= reach)
            .min_by(|a, b| far(a).total_cmp(&far(b)).then(a.rank.cmp(&b.rank)))
    }
}
