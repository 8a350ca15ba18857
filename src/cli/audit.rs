//! `weekwright audit`: every rule recounted from a plan.

use super::args::{AuditArgs, Format};
use super::output::Console;
use super::plan_file;
use super::{Exit, Failure, Faults, files};
use crate::audit::Audit;
use crate::diagnostic::{Diagnostic, Label};
use crate::planner::Planner;
use crate::rules::Severity;

pub(super) fn run(arguments: &AuditArgs, console: &Console) -> Result<Exit, Failure> {
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let loaded = plan_file::load_plan(&arguments.plan)?;
    let plan = plan_file::with_profile(&arguments.plan, loaded, &planner)?;
    plan_file::may_train(&plan, &arguments.plan)?;
    let audit = planner.audit(&plan).map_err(|faults| {
        let name = arguments.plan.display().to_string();
        let diagnostics = faults.iter().map(|fault| {
            Diagnostic::error("E2001", fault.to_string())
                .at(Label::whole(name.clone()))
                .help("mend the plan there; `catalog list` shows the exercises")
        });
        Faults::new(diagnostics.collect(), Vec::new())
    })?;
    let text = match arguments.format {
        Format::Json => json(&audit),
        Format::Text | Format::Yaml => text(&audit),
    };
    console.print(&text)?;
    Ok(if audit.passes() { Exit::Done } else { Exit::Broken })
}

/// Findings by severity, each with place and figure.
fn text(audit: &Audit) -> String {
    let mut text = String::new();
    for (severity, heading) in [
        (Severity::Broken, "Broken rules"),
        (Severity::Shortfall, "Wishes that fall short"),
        (Severity::Remark, "Remarks"),
    ] {
        let lines: Vec<String> =
            audit.of(severity).map(|finding| format!("  {finding}\n")).collect();
        if !lines.is_empty() {
            let heading = format!("{heading}: {}\n", lines.len());
            text = [text, heading, lines.concat()].concat();
        }
    }
    let verdict =
        if audit.passes() { "Every hard rule holds.\n" } else { "The plan breaks hard rules.\n" };
    text + verdict
}

fn json(audit: &Audit) -> String {
    let findings: Vec<_> = audit
        .findings
        .iter()
        .map(|finding| {
            let severity = match finding.severity {
                Severity::Broken => "broken",
                Severity::Shortfall => "shortfall",
                Severity::Remark => "remark",
            };
            serde_json::json!({
                "severity": severity,
                "rule": finding.rule,
                "place": finding.place,
                "wanted": finding.wanted.to_string(),
                "got": finding.got.to_string(),
            })
        })
        .collect();
    let value = serde_json::json!({ "passes": audit.passes(), "findings": findings });
    format!("{value:#}\n")
}
