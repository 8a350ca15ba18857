//! Where every key and value of a YAML text stands.
//!
//! `serde_yaml` gives the values but not their places, so the text is parsed a second time by
//! events. The parts of YAML that hide what a file says (aliases, anchors, tags, several documents)
//! are refused here, each with its place.

use std::ops::Range;

use saphyr_parser::{Event, Parser, ScanError, Span};

use super::syntax;
use crate::diagnostic::{Diagnostic, Label, Source};

/// One step of a path into a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step<'a> {
    /// Into a map.
    Key(&'a str),
    /// Into a list, from 0.
    Index(usize),
}

impl<'a> From<&'a str> for Step<'a> {
    fn from(key: &'a str) -> Self {
        Step::Key(key)
    }
}

impl<'a> From<&'a String> for Step<'a> {
    fn from(key: &'a String) -> Self {
        Step::Key(key)
    }
}

impl From<usize> for Step<'_> {
    fn from(index: usize) -> Self {
        Step::Index(index)
    }
}

/// A path into a file: `path!["sessions", 0, "at"]`.
#[macro_export]
macro_rules! path {
    ($($step:expr),* $(,)?) => { &[$($crate::input::marks::Step::from($step)),*] };
}

/// A value's place and its parts.
#[derive(Debug, Clone, Default)]
pub struct Node {
    /// Its bytes; empty where nothing was written.
    pub bytes: Range<usize>,
    /// What is in it.
    pub parts: Parts,
}

/// What is in a value, in the order of the file.
#[derive(Debug, Clone, Default)]
pub enum Parts {
    /// A single value.
    #[default]
    None,
    /// Entries of a list.
    List(Vec<Node>),
    /// Entries of a map.
    Map(Vec<Field>),
}

/// An entry of a map.
#[derive(Debug, Clone)]
pub struct Field {
    /// The key as written, without quotes.
    pub key: String,
    /// The bytes of the key.
    pub key_bytes: Range<usize>,
    /// The value.
    pub node: Node,
}

/// The places of a whole file.
#[derive(Debug, Clone)]
pub struct Marks {
    /// The text itself.
    pub source: Source,
    root: Node,
}

impl Marks {
    /// Parses a text for its places.
    ///
    /// # Errors
    /// Broken YAML and everything that the module refuses, each with its place.
    pub fn parse(source: &Source) -> Result<Marks, Vec<Diagnostic>> {
        let mut builder = Builder::new(source);
        for event in Parser::new_from_str(&source.text) {
            match event {
                Ok((event, span)) => builder.take(event, span),
                Err(error) => builder.stop(&error),
            }
            if builder.stopped {
                break;
            }
        }
        builder.finish()
    }

    /// The value of the whole file.
    #[must_use]
    pub fn root(&self) -> &Node {
        &self.root
    }

    /// A label at the value of a path; where the path ends early, at the last part that exists.
    #[must_use]
    pub fn at(&self, path: &[Step<'_>], text: impl Into<String>) -> Label {
        let (key, node) = self.find(path);
        let bytes = match key {
            Some(key) if node.bytes.is_empty() => key,
            _ => node.bytes.clone(),
        };
        self.source.label(bytes, text)
    }

    /// A label at the key of a path's last step, or at its value where it has no key.
    #[must_use]
    pub fn at_key(&self, path: &[Step<'_>], text: impl Into<String>) -> Label {
        let (key, node) = self.find(path);
        self.source.label(key.unwrap_or_else(|| node.bytes.clone()), text)
    }

    /// The places of one part, for checks that know only that part.
    #[must_use]
    pub fn part(&self, path: &[Step<'_>]) -> Marks {
        Marks { source: self.source.clone(), root: self.find(path).1.clone() }
    }

    /// Whether the file has something at a path.
    #[must_use]
    pub fn has(&self, path: &[Step<'_>]) -> bool {
        let mut node = &self.root;
        path.iter().all(|step| match enter(node, *step) {
            Some((_, next)) => {
                node = next;
                true
            }
            None => false,
        })
    }

    fn find(&self, path: &[Step<'_>]) -> (Option<Range<usize>>, &Node) {
        let mut found = (None, &self.root);
        for step in path {
            match enter(found.1, *step) {
                Some(next) => found = next,
                None => break,
            }
        }
        found
    }
}

fn enter<'a>(node: &'a Node, step: Step<'_>) -> Option<(Option<Range<usize>>, &'a Node)> {
    match (&node.parts, step) {
        (Parts::List(entries), Step::Index(index)) => entries.get(index).map(|node| (None, node)),
        (Parts::Map(fields), Step::Key(key)) => fields
            .iter()
            .find(|field| field.key == key)
            .map(|field| (Some(field.key_bytes.clone()), &field.node)),
        _ => None,
    }
}

/// A list or map that is still open.
struct Open {
    node: Node,
    /// A key that waits for its value.
    key: Option<(String, Range<usize>)>,
}

struct Builder<'a> {
    source: &'a Source,
    /// Byte of each character, where the text is not plain ASCII: the parser counts characters.
    bytes: Option<Vec<usize>>,
    open: Vec<Open>,
    root: Option<Node>,
    faults: Vec<Diagnostic>,
    documents: usize,
    stopped: bool,
}

impl<'a> Builder<'a> {
    fn new(source: &'a Source) -> Self {
        let text = &source.text;
        let bytes = (!text.is_ascii()).then(|| text.char_indices().map(|(byte, _)| byte).collect());
        Builder {
            source,
            bytes,
            open: Vec::new(),
            root: None,
            faults: Vec::new(),
            documents: 0,
            stopped: false,
        }
    }

    fn byte(&self, character: usize) -> usize {
        let end = self.source.text.len();
        match &self.bytes {
            Some(bytes) => bytes.get(character).copied().unwrap_or(end),
            None => character.min(end),
        }
    }

    fn range(&self, span: Span) -> Range<usize> {
        let start = self.byte(span.start.index());
        start..self.byte(span.end.index()).max(start)
    }

    fn refuse(&mut self, fault: Diagnostic) {
        self.faults.push(fault);
        self.stopped = true;
    }

    fn stop(&mut self, error: &ScanError) {
        let at = self.byte(error.marker().index());
        self.refuse(syntax::broken(self.source, at, error.info()));
    }

    fn take(&mut self, event: Event<'_>, span: Span) {
        let bytes = self.range(span);
        match event {
            Event::DocumentStart(_) => self.start_document(bytes),
            Event::Alias(_) => {
                self.faults.push(syntax::alias(self.source, bytes.clone()));
                self.complete(leaf(bytes), Some("*"));
            }
            Event::Scalar(text, _, anchor, tag) => {
                self.check_node(anchor, tag.is_some(), &bytes);
                self.complete(leaf(bytes), Some(&text));
            }
            Event::SequenceStart(anchor, tag) => {
                self.check_node(anchor, tag.is_some(), &bytes);
                self.enter(bytes, Parts::List(Vec::new()));
            }
            Event::MappingStart(anchor, tag) => {
                self.check_node(anchor, tag.is_some(), &bytes);
                self.enter(bytes, Parts::Map(Vec::new()));
            }
            Event::SequenceEnd | Event::MappingEnd => self.leave(&bytes),
            Event::Nothing | Event::StreamStart | Event::StreamEnd | Event::DocumentEnd => {}
        }
    }

    fn start_document(&mut self, bytes: Range<usize>) {
        self.documents += 1;
        if self.documents > 1 {
            self.refuse(syntax::second_document(self.source, bytes));
        }
    }

    fn check_node(&mut self, anchor: usize, has_tag: bool, bytes: &Range<usize>) {
        if anchor != 0 {
            self.faults.push(syntax::anchor(self.source, bytes.clone()));
        }
        if has_tag {
            self.faults.push(syntax::tag(self.source, bytes.clone()));
        }
    }

    fn enter(&mut self, bytes: Range<usize>, parts: Parts) {
        if self.open.len() >= syntax::DEEPEST {
            self.refuse(syntax::too_deep(self.source, bytes));
            return;
        }
        let node = Node { bytes, parts };
        self.open.push(Open { node, key: None });
    }

    fn leave(&mut self, end: &Range<usize>) {
        let Some(mut closed) = self.open.pop() else {
            return;
        };
        closed.node.bytes.end = end.end.max(closed.node.bytes.start);
        if let Parts::Map(fields) = &closed.node.parts {
            self.faults.extend(duplicates(self.source, fields));
        }
        self.complete(closed.node, None);
    }

    /// Puts a whole value where it belongs; `text` is what a single value says.
    fn complete(&mut self, node: Node, text: Option<&str>) {
        let Some(parent) = self.open.last_mut() else {
            self.root = Some(node);
            return;
        };
        match (&mut parent.node.parts, parent.key.take(), text) {
            (Parts::List(entries), _, _) => entries.push(node),
            (Parts::Map(fields), Some((key, key_bytes)), _) => {
                fields.push(Field { key, key_bytes, node });
            }
            (_, None, Some(text)) => parent.key = Some((text.to_owned(), node.bytes)),
            _ => self.refuse(syntax::key_not_text(self.source, node.bytes)),
        }
    }

    fn finish(self) -> Result<Marks, Vec<Diagnostic>> {
        if !self.faults.is_empty() {
            return Err(self.faults);
        }
        match self.root {
            Some(root) if !(root.bytes.is_empty() && matches!(root.parts, Parts::None)) => {
                Ok(Marks { source: self.source.clone(), root })
            }
            _ => Err(vec![syntax::empty(self.source)]),
        }
    }
}

const fn leaf(bytes: Range<usize>) -> Node {
    Node { bytes, parts: Parts::None }
}

/// Keys that stand twice in a map. Sorted instead of compared in pairs: a hostile map is long.
fn duplicates(source: &Source, fields: &[Field]) -> Vec<Diagnostic> {
    let mut sorted: Vec<&Field> = fields.iter().collect();
    sorted.sort_by(|a, b| a.key.cmp(&b.key).then(a.key_bytes.start.cmp(&b.key_bytes.start)));
    sorted
        .windows(2)
        .filter(|pair| pair[0].key == pair[1].key)
        .map(|pair| {
            syntax::duplicate_key(
                source,
                &pair[1].key,
                [pair[0], pair[1]].map(|field| field.key_bytes.clone()),
            )
        })
        .collect()
}
