//! Bars of weekly sets, in percent of the chart's width so that they fit any screen.

use serde::Serialize;

use crate::plan::file::MuscleVolume;
use crate::sheets::{head, phrase};

/// The bars and the scale they share.
#[derive(Debug, Serialize)]
pub(crate) struct Chart {
    ticks: Vec<Tick>,
    rows: Vec<Bar>,
}

/// A line of the scale.
#[derive(Debug, Serialize)]
struct Tick {
    at: String,
    sets: u32,
    anchor: &'static str,
}

/// A muscle's sets.
#[derive(Debug, Serialize)]
struct Bar {
    muscle: String,
    sets: String,
    range: String,
    miss: String,
    width: String,
    span: Option<Span>,
}

/// The range, drawn behind the bar.
#[derive(Debug, Serialize)]
struct Span {
    from: String,
    width: String,
}

/// Sets between two ticks.
const STEP: f64 = 5.0;

impl Chart {
    pub(crate) fn new(volume: &[MuscleVolume]) -> Self {
        let ends = volume.iter().map(|row| row.sets.max(row.high.unwrap_or(0.0)));
        let top = ends.fold(STEP, f64::max).min(100.0);
        let top = (top / STEP).ceil() * STEP;
        let steps = (0_u32..).take_while(|step| f64::from(*step) * STEP <= top);
        let ticks = steps.map(|step| {
            let sets = f64::from(step) * STEP;
            let anchor = if step == 0 {
                "start"
            } else if sets < top {
                "middle"
            } else {
                "end"
            };
            Tick { at: percent(sets, top), sets: step * 5, anchor }
        });
        Chart { ticks: ticks.collect(), rows: volume.iter().map(|row| bar(row, top)).collect() }
    }
}

fn bar(row: &MuscleVolume, top: f64) -> Bar {
    let span = row.low.or(row.high).map(|_| {
        let low = row.low.unwrap_or(0.0);
        let high = row.high.unwrap_or(top);
        Span { from: percent(low, top), width: percent(high - low, top) }
    });
    Bar {
        muscle: row.muscle.name(),
        sets: phrase::trimmed(row.sets, 1),
        range: head::range(row.low, row.high),
        miss: head::miss(row),
        width: percent(row.sets, top),
        span,
    }
}

fn percent(sets: f64, top: f64) -> String {
    phrase::trimmed((sets / top * 100.0).clamp(0.0, 100.0), 2)
}
