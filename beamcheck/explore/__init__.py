"""Beyond one study: how near each input comes to tipping a result, which other beams would do, variants."""
