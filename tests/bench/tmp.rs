#![allow(warnings)]
mod problems;
use equipour::rebalance::*;
use problems::*;
use std::time::Instant;
fn main() {
    for (n, label) in [(8usize, "8"), (12, "12")] {
        let mut seeds = Seeds::new(20_261_125);
        let mut rows = vec![];
        let mut evs: Vec<Vec<(Kind, usize, f64)>> = vec![];
        for k in 0..40 {
            let q = question(&mut seeds, n);
            let mut best = (f64::INFINITY, f64::INFINITY, f64::INFINITY);
            let mut a = None;
            for _ in 0..5 {
                let t = Instant::now();
                let p = nearest(&q).unwrap();
                best.0 = best.0.min(t.elapsed().as_secs_f64() * 1e6);
                let t = Instant::now();
                let c = continuous(&q).unwrap();
                best.1 = best.1.min(t.elapsed().as_secs_f64() * 1e6);
                let t = Instant::now();
                let ans = nearest(&q).map(|_| propose(&q)).unwrap().unwrap();
                best.2 = best.2.min(t.elapsed().as_secs_f64() * 1e6);
                a = Some((p, ans));
            }
            let (p, ans) = a.unwrap();
            let p = p.unwrap();
            rows.push((best, p.evidence[0].nodes, p.evidence[0].proof));
            let mut e: Vec<(Kind, usize, f64)> = vec![];
            for pr in &ans.proposals {
                for v in &pr.evidence {
                    e.push((v.kind, v.nodes, v.gap));
                }
            }
            evs.push(e);
        }
        let med = |f: &dyn Fn(&((f64, f64, f64), usize, equipour::solver::Proof)) -> f64| {
            let mut v: Vec<f64> = rows.iter().map(f).collect();
            v.sort_by(f64::total_cmp);
            (v[v.len() / 2], v[v.len() * 9 / 10], v[v.len() - 1])
        };
        println!(
            "{label}: nearest us {:?} cont {:?} all {:?} nodes {:?}",
            med(&|r| r.0.0),
            med(&|r| r.0.1),
            med(&|r| r.0.2),
            med(&|r| r.1 as f64)
        );
        for kind in [
            Kind::Nearest,
            Kind::SmallestChange,
            Kind::FewestPours,
            Kind::EasiestToMeasure,
            Kind::Cheapest,
        ] {
            let mut v: Vec<usize> = evs
                .iter()
                .flatten()
                .filter(|e| e.0 == kind)
                .map(|e| e.1)
                .collect();
            let g = evs
                .iter()
                .flatten()
                .filter(|e| e.0 == kind && e.2 > 0.0)
                .count();
            v.sort();
            if !v.is_empty() {
                println!(
                    "  {kind:?} n={} med {} max {} gaps {g}",
                    v.len(),
                    v[v.len() / 2],
                    v[v.len() - 1]
                );
            }
        }
    }
}
