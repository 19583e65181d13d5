//! Maps and sets of what is asked for many thousand times in a run. Their hash is quicker than that of the standard library, and seeded
//! anew in every process too.

/// A map; made with `default()`.
pub type QuickMap<K, V> = std::collections::HashMap<K, V, foldhash::fast::RandomState>;

/// A set; made with `default()`.
pub type QuickSet<K> = std::collections::HashSet<K, foldhash::fast::RandomState>;
