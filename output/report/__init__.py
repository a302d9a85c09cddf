"""The report: what there is to know before cutting, as tables and one page of HTML."""
