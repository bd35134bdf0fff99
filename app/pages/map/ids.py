"""Every id of the Map page, in one place: a callback and a layout that name the same thing name it once."""

# Stores.
MAP_CLICKED = "map-clicked"  # where the map was clicked: {"mass_g", "speed_m_s"}
MAP_WIDTH = "map-width"  # of the figure, px
MAP_PAPER = "map-paper"  # the figure as it is printed

MAP_ADD = "map-add"

# What is shown.
MAP_EMPTY = "map-empty"
MAP_BODY = "map-body"
MAP_NOTES = "map-notes"
MAP_FIGURE = "map-figure"
MAP_FIGURE_TITLE = "map-figure-title"
MAP_FIGURE_NOTE = "map-figure-note"
MAP_ENDS_PROBLEM = "map-ends-problem"
MAP_POINT = "map-point"
MAP_POINT_SAID = "map-point-said"
MAP_NOTICE = "map-notice"
MAP_TABLE = "map-table"
