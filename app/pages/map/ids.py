"""Every id of the Map page, in one place: a callback and a layout that name the same thing name it once."""

MAP_INVENTED = "map-invented"

# The Map page. Stores.
MAP_SAVED = "map-saved"  # the map's form as typed; kept for as long as the browser's tab is
MAP_WRITTEN = "map-written"  # what the fields were last made from, and the units they show
MAP_READ = "map-read"  # {"compare", "athlete"}: the other pages' forms as this page found them
MAP_COMPARE = "map-compare"  # the Compare form as it is now, with the throws added here
MAP_WRITE = "map-write"  # the same, once it was changed here
MAP_CLICKED = "map-clicked"  # where the map was clicked: {"mass_g", "speed_m_s"}
MAP_BEFORE = "map-before"  # the Compare form before a throw was added from here
MAP_WIDTH = "map-width"  # of the figure, px
MAP_PAPER = "map-paper"  # the figure as it is printed

# What is asked.
MAP_READING = "map-reading"
MAP_READOUT = "map-readout"
MAP_OF = "map-of"
MAP_AXIS = "map-axis"
MAP_RANGE = "map-range"  # {"type": this, "name": field}
MAP_MASS = "map-mass"
MAP_SPEED = "map-speed"
MAP_ADD = "map-add"
MAP_TAKE_BACK = "map-take-back"

# What is shown.
MAP_WHO = "map-who"
MAP_EMPTY = "map-empty"
MAP_BODY = "map-body"
MAP_NOTES = "map-notes"
MAP_FIGURE = "map-figure"
MAP_FIGURE_TITLE = "map-figure-title"
MAP_FIGURE_NOTE = "map-figure-note"
MAP_POINT = "map-point"
MAP_POINT_SAID = "map-point-said"
MAP_NOTICE = "map-notice"
MAP_TABLE = "map-table"
MAP_BASIS = "map-basis"
