"""Which size of a chart: her own chart of a bought pattern, or one that is built in, and the choice from it."""
