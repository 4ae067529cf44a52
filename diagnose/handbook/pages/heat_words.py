"""What the page on heat and dye says in words."""

LEAD = (
    "The press does one thing: it brings the dye to its heat and holds it there long enough. Everything on this "
    "page follows from how fast heat gets through, and how steeply the dye answers to it."
)
CLOSED = (
    "The platen touches the cover sheet, and heat soaks down through sheet and transfer. Near 100 °C (212 °F) it "
    "waits: water must turn to steam first. The water that cotton holds takes nearly as much heat as bringing the "
    "dry cotton all the way to press heat; polyester holds next to none. Then the print comes to its heat. The "
    "dye turns to gas, crosses the hair's breadth to the item, and goes into polyester that the heat has opened. "
    "Cotton stays shut to it, and so does a bare glaze.\n\n"
    "Thin cloth is hot within half a minute. A tile drinks heat for minutes, and where it lies face down all of "
    "it has to pass through the clay before the dye feels any. That is why one wants seconds and the other "
    "minutes, at the same heat."
)
DEGREES = (
    "How fast the dye gasses off is set by its vapour pressure, and that about doubles with every 10 °C (18 °F). "
    "So a platen that stands ten degrees under its display gives half the dose in the same time. Longer makes up "
    "for cooler; but a press that reads wrong is better put right than allowed for."
)
PRESSURE = (
    "Pressure closes the air gaps between the faces. Air hardly leads heat, so the first light squeeze gains "
    "most, each further one less. It does not push dye into the fibre. What is over and above good contact only "
    "crushes pile, presses a box into the cloth and squeezes edges soft."
)
TOO_MUCH = (
    "Full colour comes near and then hardly grows: the sheet is all but empty, while dye already in the polyester "
    "goes on spreading. At about twice the dose edges soften; far beyond, loose dye wanders and leaves a faint "
    "copy beside the print, and white cloth may yellow. Dye leaves through the back of the "
    "sheet as well, the more the longer it is hot: that is what the cover sheet is for."
)
PARTS = (
    ("What happens while it is closed", CLOSED),
    ("Why ten degrees matter", DEGREES),
    ("What pressure does, and what it does not", PRESSURE),
    ("Too much of it", TOO_MUCH),
)
ABOUT_CHART = (
    "Each at its usual settings, from closing to opening. The small step near the start of some lines is water "
    "boiling off; the mug's slow start is its thin element, which the cold mug pulls down before it can catch up."
)
COLOUR_CHART = (
    "Polyester cloth at three heats on the display. The curve rises late, for cold dye does nothing, then "
    "flattens as the sheet empties."
)
RECKONED = (
    "Heat: one-dimensional conduction through platen, cover sheet, transfer, item, pad and bed, with what a "
    "platen loses on closing, contact that improves with pressure, and water that boils off. Dye: the vapour "
    "pressure of a transfer red (Landolt-Börnstein, group IV, volume 20), added up over time as seconds at a "
    "steady heat. The one calibration: polyester cloth comes to 95 % of full colour by its usual settings, about "
    "a minute at 196 to 204 °C (385 to 400 °F; common practice). By that alone the reckoning tells minutes for "
    "tiles, slate and mugs, which is what is usual for them."
)
LIMITS = (
    "What it does not know: your press's true heat, your ink, your paper and the coat of your blank. Contact, the "
    "paper's own figures and the spread of them are assumptions. So every figure has a band, and a test piece has "
    "the last word."
)
