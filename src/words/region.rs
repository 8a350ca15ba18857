//! The regions of the body that a text names, as people give them.

use super::Region;

impl Region {
    /// The name with spaces: `lower back`.
    #[must_use]
    pub fn name(self) -> String {
        self.id().replace('-', " ")
    }

    /// The regions that a text names: `sore lower back`, `left knee on stairs`, `both shoulders`.
    #[must_use]
    pub fn named_in(text: &str) -> Vec<Region> {
        let plain = text.to_lowercase().replace(['-', '_', '/', ','], " ");
        let words: Vec<&str> = plain.split_whitespace().collect();
        let is_said = |region: &&Region| {
            let name = region.name();
            let wanted: Vec<&str> = name.split(' ').collect();
            let is_it = |said: &[&str]| {
                said.iter().zip(&wanted).all(|(said, word)| {
                    said.strip_suffix('s').unwrap_or(said) == *word || said == word
                })
            };
            words.windows(wanted.len()).any(is_it)
        };
        let also =
            OTHER_NAMES.iter().filter(|(name, _)| words.contains(name)).map(|(_, region)| *region);
        let mut found: Vec<Region> =
            Region::ALL.iter().filter(is_said).copied().chain(also).collect();
        found.sort_unstable();
        found.dedup();
        // A back without a side of it is most often the lower one, and that keeps out most.
        if found.is_empty() && words.contains(&"back") {
            found.push(Region::LowerBack);
        }
        found
    }
}

/// Other names of regions, as people give them.
const OTHER_NAMES: [(&str, Region); 16] = [
    ("lumbar", Region::LowerBack),
    ("sciatica", Region::LowerBack),
    ("thoracic", Region::UpperBack),
    ("feet", Region::Foot),
    ("heel", Region::Foot),
    ("toe", Region::Foot),
    ("toes", Region::Foot),
    ("achilles", Region::Ankle),
    ("kneecap", Region::Knee),
    ("patella", Region::Knee),
    ("hand", Region::Wrist),
    ("hands", Region::Wrist),
    ("thumb", Region::Wrist),
    ("sternum", Region::Chest),
    ("breastbone", Region::Chest),
    ("ribs", Region::Chest),
];
