"""How a child grows: heights by age from growth tables, a child's own centile, what is expected on a day to come."""
