"""Published freeze dates with their odds, as printed, the source beside each.

In spring the probability, in percent, is that of such a cold after the date; in autumn, before it. Dates are
given as month and day. A row has as many probabilities as were read from its page: where a page was read in
part, the other side is short or empty, and nothing was filled in. No station here has all nine dates on both
sides. A date the page leaves blank, because too few years have such a freeze, is left out, and a last freeze
of a mild winter may carry a December date.
"""

from collections.abc import Iterator, Mapping

from attrs import frozen


@frozen
class Source:
    """Where a table was published."""

    publisher: str
    title: str
    url: str


@frozen
class FreezeTable:
    """One station and threshold [°F]: month and day by probability [%], for spring and for autumn."""

    station: str
    threshold_f: int
    spring: Mapping[int, str]
    autumn: Mapping[int, str]
    source: Source


NINE = (10, 20, 30, 40, 50, 60, 70, 80, 90)
"""The probabilities of a full row, in percent, in the order in which they are printed."""

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

GEORGETOWN = Source(
    "University of Delaware, Research and Education Center Georgetown",
    "Frost dates (after Moyer, ESSA and University of Maryland, 1970)",
    "http://www.rec.udel.edu/misc/Frost%20dates.htm",
)

MASSACHUSETTS = Source(
    "UMass Extension",
    "Freeze/Frost Occurrence Tables for Massachusetts (after NOAA/NCDC)",
    "https://ag.umass.edu./landscape/fact-sheets/freezefrost-occurrence-tables-for-massachusetts",
)

CONNECTICUT = Source(
    "UMass Extension",
    "Freeze/Frost Occurrence Tables for Connecticut (after NOAA/NCDC)",
    "https://ag.umass.edu/landscape/fact-sheets/freezefrost-occurrence-tables-for-connecticut",
)

SELLER = "A seed seller's reprint, taken for NOAA/NCDC Climatography of the U.S. No. 20"

REPRINT = "https://victoryseeds.com/a/h/frost-dates/"
"""Where a seller reprints the tables, a page a station. The page as read names no period; it is taken for the
1971-2000 normals (Climatography of the U.S. No. 20): its 36 °F medians for Hanover, Lakeport and North
Stratford are those of a New Hampshire list that names the National Climatic Data Center as its source,
http://www.docstoc.com/docs/29071974/New-Hampshire-Spring-Frost-Dates."""

GEORGETOWN_ROWS = """
    32 | May 10 | Apr 30 | Apr 25 | Apr 20 | Apr 10 | Oct 2  | Oct 11 | Oct 16 | Oct 21 | Oct 30
    24 | Apr 9  | Apr 1  | Mar 27 | Mar 22 | Mar 14 | Nov 1  | Nov 9  | Nov 14 | Nov 19 | Nov 27
    16 | Mar 13 | Mar 3  | Feb 25 | Feb 19 | Feb 9  | Nov 28 | Dec 6  | Dec 10 | Dec 14 | Dec 22
"""
"""Threshold [°F]; spring with 10, 33, 50, 67 and 90 %; autumn with 10, 33, 50, 67 and 90 %."""

MASSACHUSETTS_ROWS = """
    Knightville Dam MA | 36 | May 23 | Jun 04 | Jun 16 | Sep 03 | Sep 13 | Sep 24
    Knightville Dam MA | 32 | May 05 | May 19 | Jun 02 | Sep 11 | Sep 23 | Oct 05
    Knightville Dam MA | 28 | Apr 21 | May 05 | May 19 | Sep 20 | Oct 05 | Oct 21
    Lawrence MA        | 36 | Apr 20 | May 04 | May 19 | Sep 24 | Oct 05 | Oct 16
    Lawrence MA        | 32 | Apr 08 | Apr 20 | May 02 | Oct 08 | Oct 20 | Nov 01
    Lawrence MA        | 28 | Mar 25 | Apr 07 | Apr 19 | Oct 18 | Nov 03 | Nov 18
    Middleton MA       | 36 | Apr 21 | May 09 | May 28 | Sep 12 | Sep 27 | Oct 12
    Middleton MA       | 32 | Apr 06 | Apr 27 | May 17 | Sep 25 | Oct 11 | Oct 27
    Middleton MA       | 28 | Mar 27 | Apr 11 | Apr 27 | Oct 05 | Oct 25 | Nov 15
    Nantucket FAA MA   | 36 | Apr 20 | May 09 | May 27 | Oct 01 | Oct 19 | Nov 07
    Nantucket FAA MA   | 32 | Apr 03 | Apr 18 | May 02 | Oct 16 | Nov 03 | Nov 22
    Nantucket FAA MA   | 28 | Mar 21 | Apr 04 | Apr 18 | Oct 29 | Nov 15 | Dec 03
    New Bedford MA     | 36 | Apr 04 | Apr 18 | May 03 | Oct 10 | Oct 25 | Nov 08
    New Bedford MA     | 32 | Mar 23 | Apr 06 | Apr 20 | Oct 22 | Nov 10 | Nov 28
    New Bedford MA     | 28 | Mar 12 | Mar 26 | Apr 08 | Nov 06 | Nov 22 | Dec 09
    Plymouth MA        | 36 | Apr 28 | May 15 | Jun 01 | Sep 22 | Oct 03 | Oct 13
    Plymouth MA        | 32 | Apr 11 | May 02 | May 23 | Oct 04 | Oct 16 | Oct 27
    Plymouth MA        | 28 | Mar 30 | Apr 16 | May 03 | Oct 16 | Nov 02 | Nov 18
    Rochester MA       | 36 | May 03 | May 17 | Jun 01 | Sep 13 | Sep 26 | Oct 09
    Rochester MA       | 32 | Apr 16 | May 04 | May 22 | Sep 24 | Oct 09 | Oct 23
"""
"""Station; threshold [°F]; spring with 90, 50 and 10 %; autumn with 10, 50 and 90 %."""

CONNECTICUT_ROWS = """
    Danbury CT                | 36 | May 03 | May 18 | Jun 01 | Sep 14 | Sep 24 | Oct 03
    Danbury CT                | 32 | Apr 16 | Apr 30 | May 15 | Sep 22 | Oct 06 | Oct 20
    Danbury CT                | 28 | Apr 01 | Apr 14 | Apr 26 | Oct 03 | Oct 18 | Nov 01
    Falls Village CT          | 36 | May 17 | May 31 | Jun 15 | Sep 05 | Sep 17 | Sep 28
    Falls Village CT          | 32 | May 04 | May 19 | Jun 03 | Sep 12 | Sep 25 | Oct 09
    Falls Village CT          | 28 | Apr 21 | May 05 | May 18 | Sep 21 | Oct 07 | Oct 23
    Hartford Brainard Fld CT  | 36 | Apr 30 | May 13 | May 26 | Sep 15 | Oct 02 | Oct 18
    Hartford Brainard Fld CT  | 32 | Apr 08 | Apr 25 | May 12 | Sep 23 | Oct 10 | Oct 26
    Hartford Brainard Fld CT  | 28 | Apr 02 | Apr 12 | Apr 22 | Oct 09 | Oct 23 | Nov 05
    Middletown 4W CT          | 36 | Apr 24 | May 09 | May 23 | Sep 16 | Oct 03 | Oct 19
    Middletown 4W CT          | 32 | Apr 04 | Apr 23 | May 12 | Sep 25 | Oct 12 | Oct 30
    Middletown 4W CT          | 28 | Mar 26 | Apr 07 | Apr 18 | Oct 10 | Oct 27 | Nov 12
    Mount Carmel CT           | 36 | May 01 | May 15 | May 29 | Sep 19 | Sep 30 | Oct 10
    Mount Carmel CT           | 32 | Apr 17 | May 01 | May 14 | Sep 24 | Oct 08 | Oct 23
    Mount Carmel CT           | 28 | Mar 31 | Apr 13 | Apr 27 | Oct 09 | Oct 24 | Nov 07
    Norfolk 2 SW CT           | 36 | May 11 | May 27 | Jun 11 | Sep 09 | Sep 21 | Oct 02
    Norfolk 2 SW CT           | 32 | May 01 | May 14 | May 27 | Sep 18 | Oct 02 | Oct 15
    Norfolk 2 SW CT           | 28 | Apr 14 | Apr 27 | May 11 | Sep 30 | Oct 16 | Nov 01
    Norwalk Gas Plant CT      | 36 | Apr 23 | May 09 | May 24 | Sep 21 | Oct 05 | Oct 19
    Norwalk Gas Plant CT      | 32 | Apr 09 | Apr 24 | May 08 | Oct 02 | Oct 14 | Oct 27
"""
"""Station; threshold [°F]; spring with 90, 50 and 10 %; autumn with 10, 50 and 90 %. The page prints the last
station's name as Morwalk."""

SPRING_PAGES = """
north+stratford,+nh | North Stratford NH | Sep 7
    16 | Apr 18 | Apr 14 | Apr 11 | Apr 8 | Apr 6 | Apr 4 | Apr 2 | Mar 30 | Mar 26
    20 | Apr 30 | Apr 25 | Apr 22 | Apr 19 | Apr 16 | Apr 13 | Apr 10 | Apr 7 | Apr 2
    24 | May 12 | May 8 | May 5 | May 3 | Apr 30 | Apr 28 | Apr 26 | Apr 23 | Apr 19
    28 | May 27 | May 22 | May 19 | May 16 | May 13 | May 10 | May 7 | May 4 | Apr 29
    32 | Jun 13 | Jun 8 | Jun 3 | May 31 | May 28 | May 24 | May 21 | May 16 | May 11
    36 | Jun 26 | Jun 21 | Jun 18 | Jun 15 | Jun 12 | Jun 9 | Jun 6 | Jun 3 | May 29
Lakeport%2C+NH | Lakeport NH | Sep 25
    16 | Apr 5 | Apr 1 | Mar 29 | Mar 26 | Mar 24 | Mar 21 | Mar 19 | Mar 16 | Mar 12
    20 | Apr 15 | Apr 11 | Apr 7 | Apr 4 | Apr 1 | Mar 29 | Mar 26 | Mar 23 | Mar 18
    24 | Apr 25 | Apr 21 | Apr 17 | Apr 14 | Apr 12 | Apr 9 | Apr 6 | Apr 3 | Mar 29
    28 | May 7 | May 2 | Apr 29 | Apr 25 | Apr 23 | Apr 20 | Apr 17 | Apr 13 | Apr 8
    32 | May 24 | May 19 | May 14 | May 11 | May 8 | May 4 | May 1 | Apr 27 | Apr 21
    36 | Jun 14 | Jun 6 | Jun 1 | May 28 | May 23 | May 19 | May 15 | May 9 | May 2
Hanover%2C+NH | Hanover NH | Sep 25
    16 | Apr 11 | Apr 5 | Apr 1 | Mar 29 | Mar 26 | Mar 23 | Mar 20 | Mar 16 | Mar 11
    20 | Apr 16 | Apr 12 | Apr 9 | Apr 6 | Apr 4 | Apr 1 | Mar 30 | Mar 27 | Mar 22
    24 | Apr 30 | Apr 25 | Apr 22 | Apr 19 | Apr 16 | Apr 14 | Apr 11 | Apr 7 | Apr 2
    28 | May 12 | May 8 | May 5 | May 2 | Apr 30 | Apr 28 | Apr 25 | Apr 22 | Apr 18
    32 | May 25 | May 20 | May 17 | May 14 | May 11 | May 9 | May 6 | May 3 | Apr 28
    36 | Jun 10 | Jun 5 | Jun 1 | May 28 | May 25 | May 22 | May 19 | May 15 | May 10
rutland,+vt | Rutland VT | Sep 19
    16 | Apr 10 | Apr 6 | Apr 2 | Mar 30 | Mar 27 | Mar 24 | Mar 21 | Mar 18 | Mar 13
    20 | Apr 16 | Apr 12 | Apr 9 | Apr 7 | Apr 4 | Apr 2 | Mar 31 | Mar 28 | Mar 24
    24 | Apr 27 | Apr 23 | Apr 20 | Apr 18 | Apr 15 | Apr 13 | Apr 11 | Apr 8 | Apr 4
    28 | May 15 | May 10 | May 7 | May 4 | May 2 | Apr 29 | Apr 27 | Apr 24 | Apr 19
    32 | May 26 | May 22 | May 19 | May 16 | May 13 | May 11 | May 8 | May 5 | May 1
    36 | Jun 11 | Jun 5 | Jun 1 | May 29 | May 26 | May 23 | May 19 | May 15 | May 10
Blue+Hill%2C+MA | Blue Hill MA | Oct 8
    16 | Mar 30 | Mar 25 | Mar 21 | Mar 17 | Mar 14 | Mar 11 | Mar 7 | Mar 4 | Feb 26
    20 | Apr 6 | Apr 2 | Mar 29 | Mar 26 | Mar 24 | Mar 21 | Mar 18 | Mar 15 | Mar 10
    24 | Apr 8 | Apr 4 | Apr 1 | Mar 30 | Mar 27 | Mar 25 | Mar 23 | Mar 20 | Mar 16
    28 | Apr 23 | Apr 18 | Apr 14 | Apr 11 | Apr 8 | Apr 5 | Apr 2 | Mar 30 | Mar 25
    32 | May 1 | Apr 28 | Apr 26 | Apr 24 | Apr 22 | Apr 20 | Apr 18 | Apr 16 | Apr 13
    36 | May 11 | May 8 | May 5 | May 3 | Apr 30 | Apr 28 | Apr 26 | Apr 23 | Apr 19
groton,+ct | Groton CT | Oct 9
    16 | Mar 27 | Mar 21 | Mar 17 | Mar 13 | Mar 10 | Mar 7 | Mar 3 | Feb 27 | Feb 21
    20 | Apr 2 | Mar 28 | Mar 25 | Mar 22 | Mar 19 | Mar 16 | Mar 14 | Mar 10 | Mar 5
    24 | Apr 8 | Apr 4 | Mar 31 | Mar 29 | Mar 26 | Mar 24 | Mar 21 | Mar 18 | Mar 13
    28 | Apr 20 | Apr 15 | Apr 12 | Apr 9 | Apr 7 | Apr 4 | Apr 1 | Mar 29 | Mar 25
    32 | Apr 28 | Apr 25 | Apr 22 | Apr 20 | Apr 18 | Apr 16 | Apr 14 | Apr 11 | Apr 8
    36 | May 18 | May 13 | May 10 | May 7 | May 4 | May 1 | Apr 28 | Apr 25 | Apr 20
Gloversville%2C+NY | Gloversville NY | Sep 25
    16 | Apr 9 | Apr 4 | Apr 1 | Mar 29 | Mar 27 | Mar 24 | Mar 21 | Mar 18 | Mar 13
    20 | Apr 15 | Apr 11 | Apr 8 | Apr 5 | Apr 3 | Mar 31 | Mar 28 | Mar 25 | Mar 21
    24 | Apr 23 | Apr 19 | Apr 17 | Apr 14 | Apr 12 | Apr 10 | Apr 8 | Apr 5 | Apr 1
    28 | May 7 | May 3 | Apr 30 | Apr 28 | Apr 26 | Apr 23 | Apr 21 | Apr 18 | Apr 14
    32 | May 20 | May 16 | May 13 | May 11 | May 8 | May 6 | May 3 | May 1 | Apr 26
    36 | Jun 3 | May 29 | May 26 | May 23 | May 21 | May 18 | May 15 | May 12 | May 8
Deposit%2C+NY | Deposit NY | Sep 24
    16 | Apr 7 | Apr 3 | Mar 31 | Mar 29 | Mar 27 | Mar 25 | Mar 23 | Mar 21 | Mar 17
    20 | Apr 23 | Apr 18 | Apr 15 | Apr 12 | Apr 9 | Apr 6 | Apr 3 | Mar 30 | Mar 25
    24 | May 5 | Apr 30 | Apr 27 | Apr 24 | Apr 21 | Apr 18 | Apr 15 | Apr 12 | Apr 7
    28 | May 17 | May 13 | May 10 | May 8 | May 6 | May 4 | May 1 | Apr 29 | Apr 25
    32 | Jun 3 | May 29 | May 25 | May 22 | May 19 | May 16 | May 12 | May 9 | May 3
    36 | Jun 16 | Jun 10 | Jun 7 | Jun 3 | May 31 | May 28 | May 25 | May 21 | May 16
Lawrenceville%2C+NY | Lawrenceville NY | Sep 23
    16 | Apr 13 | Apr 9 | Apr 6 | Apr 3 | Apr 1 | Mar 29 | Mar 26 | Mar 23 | Mar 19
    20 | Apr 20 | Apr 16 | Apr 13 | Apr 11 | Apr 9 | Apr 6 | Apr 4 | Apr 1 | Mar 28
    24 | May 4 | Apr 29 | Apr 26 | Apr 23 | Apr 20 | Apr 17 | Apr 14 | Apr 11 | Apr 6
    28 | May 12 | May 8 | May 4 | May 2 | Apr 29 | Apr 27 | Apr 24 | Apr 21 | Apr 17
    32 | Jun 1 | May 27 | May 23 | May 20 | May 16 | May 13 | May 10 | May 6 | May 1
    36 | Jun 18 | Jun 11 | Jun 7 | Jun 3 | May 30 | May 26 | May 22 | May 18 | May 11
Ogdensburg%2C+NY | Ogdensburg NY | Sep 25
    16 | Apr 8 | Apr 3 | Mar 31 | Mar 28 | Mar 25 | Mar 23 | Mar 20 | Mar 17 | Mar 12
    20 | Apr 20 | Apr 14 | Apr 10 | Apr 7 | Apr 4 | Apr 1 | Mar 28 | Mar 24 | Mar 19
    24 | Apr 28 | Apr 22 | Apr 18 | Apr 15 | Apr 11 | Apr 8 | Apr 5 | Apr 1 | Mar 26
    28 | May 7 | May 2 | Apr 28 | Apr 25 | Apr 22 | Apr 19 | Apr 16 | Apr 13 | Apr 8
    32 | May 18 | May 13 | May 9 | May 6 | May 3 | May 1 | Apr 27 | Apr 24 | Apr 19
    36 | Jun 8 | Jun 1 | May 27 | May 22 | May 19 | May 15 | May 10 | May 5 | Apr 28
headquarters,+id | Headquarters ID | Aug 26
    16 | Apr 11 | Apr 1 | Mar 26 | Mar 20 | Mar 15 | Mar 10 | Mar 4 | Feb 25 | Feb 16
    20 | Apr 22 | Apr 16 | Apr 11 | Apr 7 | Apr 3 | Mar 31 | Mar 26 | Mar 22 | Mar 15
    24 | May 16 | May 9 | May 4 | Apr 29 | Apr 25 | Apr 21 | Apr 16 | Apr 11 | Apr 3
    28 | Jun 4 | May 29 | May 24 | May 20 | May 16 | May 12 | May 8 | May 3 | Apr 27
    32 | Jul 7 | Jun 28 | Jun 23 | Jun 18 | Jun 13 | Jun 9 | Jun 4 | May 29 | May 21
    36 | Jul 25 | Jul 19 | Jul 14 | Jul 10 | Jul 7 | Jul 3 | Jun 29 | Jun 24 | Jun 18
Koosharem%2C+UT | Koosharem UT | Aug 27
    16 | May 3 | Apr 27 | Apr 22 | Apr 18 | Apr 15 | Apr 12 | Apr 8 | Apr 4 | Mar 29
    20 | May 25 | May 18 | May 13 | May 9 | May 5 | May 1 | Apr 27 | Apr 22 | Apr 15
    24 | Jun 9 | Jun 1 | May 27 | May 23 | May 19 | May 14 | May 10 | May 5 | Apr 27
    28 | Jun 21 | Jun 15 | Jun 10 | Jun 6 | Jun 2 | May 29 | May 25 | May 20 | May 13
    32 | Jul 2 | Jun 26 | Jun 22 | Jun 18 | Jun 14 | Jun 11 | Jun 7 | Jun 3 | May 28
    36 | Jul 16 | Jul 11 | Jul 6 | Jul 2 | Jun 29 | Jun 26 | Jun 22 | Jun 18 | Jun 12
grouse+creek,+ut | Grouse Creek UT | Sep 1
    16 | Apr 23 | Apr 16 | Apr 10 | Apr 6 | Apr 2 | Mar 29 | Mar 24 | Mar 19 | Mar 12
    20 | May 11 | May 5 | May 1 | Apr 27 | Apr 24 | Apr 20 | Apr 17 | Apr 12 | Apr 7
    24 | May 23 | May 17 | May 12 | May 8 | May 5 | May 1 | Apr 27 | Apr 23 | Apr 16
    28 | Jun 16 | Jun 9 | Jun 3 | May 29 | May 25 | May 21 | May 16 | May 10 | May 3
    32 | Jul 5 | Jun 28 | Jun 23 | Jun 19 | Jun 15 | Jun 11 | Jun 7 | Jun 2 | May 26
    36 | Jul 12 | Jul 7 | Jul 2 | Jun 29 | Jun 25 | Jun 22 | Jun 19 | Jun 14 | Jun 9
milton+freewater,+or | Milton Freewater OR | Oct 4
    16 | Feb 23 | Feb 14 | Feb 7 | Feb 1 | Jan 27 | Jan 21 | Jan 14 | Jan 5 | --
    20 | Feb 28 | Feb 20 | Feb 13 | Feb 8 | Feb 2 | Jan 28 | Jan 22 | Jan 15 | Jan 5
    24 | Mar 24 | Mar 14 | Mar 7 | Feb 28 | Feb 23 | Feb 17 | Feb 11 | Feb 3 | Jan 24
    28 | Apr 8 | Apr 1 | Mar 26 | Mar 21 | Mar 16 | Mar 12 | Mar 7 | Mar 1 | Feb 21
    32 | Apr 22 | Apr 15 | Apr 10 | Apr 6 | Apr 2 | Mar 30 | Mar 25 | Mar 21 | Mar 14
    36 | May 10 | May 5 | May 1 | Apr 27 | Apr 24 | Apr 20 | Apr 17 | Apr 13 | Apr 7
foster+dam,+or | Foster Dam OR | Oct 10
    16 | Jan 30 | Jan 17 | Jan 5 | Dec 21 | -- | -- | -- | -- | --
    20 | Feb 9 | Jan 31 | Jan 25 | Jan 18 | Jan 12 | Jan 3 | -- | -- | --
    24 | Feb 26 | Feb 17 | Feb 10 | Feb 5 | Jan 30 | Jan 24 | Jan 16 | Jan 2 | --
    28 | Mar 12 | Mar 5 | Feb 28 | Feb 23 | Feb 19 | Feb 15 | Feb 10 | Feb 5 | Jan 29
    32 | Apr 25 | Apr 18 | Apr 12 | Apr 8 | Apr 3 | Mar 30 | Mar 25 | Mar 20 | Mar 12
    36 | Jun 3 | May 26 | May 21 | May 16 | May 12 | May 8 | May 3 | Apr 28 | Apr 20
"""
"""A station's page, its name and the one autumn date read (32 °F, 20 %); then, by threshold [°F], the last
freezes of spring with 10 to 90 %."""

AUTUMN_PAGES = """
forman,+nd | Forman ND | Jun 2 | May 19 | May 9
    16 | Oct 20 | Oct 25 | Oct 29 | Nov 1 | Nov 4 | Nov 7 | Nov 10 | Nov 13 | Nov 18
    20 | Oct 3 | Oct 10 | Oct 15 | Oct 19 | Oct 22 | Oct 26 | Oct 30 | Nov 4 | Nov 10
    24 | Sep 27 | Oct 3 | Oct 7 | Oct 10 | Oct 14 | Oct 17 | Oct 20 | Oct 24 | Oct 30
    28 | Sep 19 | Sep 24 | Sep 27 | Sep 30 | Oct 3 | Oct 6 | Oct 8 | Oct 12 | Oct 16
    32 | Sep 10 | Sep 15 | Sep 18 | Sep 20 | Sep 23 | Sep 25 | Sep 28 | Oct 1 | Oct 5
    36 | Sep 3 | Sep 7 | Sep 10 | Sep 12 | Sep 15 | Sep 17 | Sep 20 | Sep 22 | Sep 27
wheaton,+mn | Wheaton MN | May 22 | May 12 | May 5
    16 | Oct 22 | Oct 27 | Oct 31 | Nov 3 | Nov 6 | Nov 9 | Nov 12 | Nov 16 | Nov 21
    20 | Oct 15 | Oct 20 | Oct 23 | Oct 26 | Oct 29 | Nov 1 | Nov 4 | Nov 7 | Nov 12
    24 | Oct 7 | Oct 12 | Oct 16 | Oct 19 | Oct 22 | Oct 25 | Oct 28 | Nov 1 | Nov 6
    28 | Sep 26 | Oct 2 | Oct 6 | Oct 9 | Oct 12 | Oct 15 | Oct 18 | Oct 22 | Oct 28
    32 | Sep 19 | Sep 23 | Sep 26 | Sep 28 | Sep 30 | Oct 2 | Oct 5 | Oct 7 | Oct 11
    36 | Sep 12 | Sep 16 | Sep 19 | Sep 21 | Sep 23 | Sep 25 | Sep 27 | Sep 30 | Oct 4
menomonie,+wi | Menomonie WI | Jun 10 | May 24 | May 13
    16 | Oct 26 | Nov 1 | Nov 6 | Nov 9 | Nov 13 | Nov 16 | Nov 20 | Nov 24 | Nov 30
    20 | Oct 18 | Oct 22 | Oct 26 | Oct 28 | Oct 31 | Nov 3 | Nov 6 | Nov 9 | Nov 13
    24 | Oct 5 | Oct 11 | Oct 15 | Oct 18 | Oct 21 | Oct 24 | Oct 27 | Oct 31 | Nov 5
    28 | Sep 24 | Sep 29 | Oct 2 | Oct 5 | Oct 8 | Oct 11 | Oct 14 | Oct 17 | Oct 22
    32 | Sep 17 | Sep 21 | Sep 23 | Sep 26 | Sep 28 | Sep 30 | Oct 3 | Oct 5 | Oct 9
    36 | Sep 10 | Sep 14 | Sep 16 | Sep 19 | Sep 21 | Sep 23 | Sep 25 | Sep 28 | Oct 1
Kewaunee%2C+WI | Kewaunee WI | Jun 8 | May 21 | May 9
    16 | Nov 7 | Nov 14 | Nov 18 | Nov 22 | Nov 26 | Nov 29 | Dec 3 | Dec 7 | Dec 14
    20 | Oct 29 | Nov 4 | Nov 8 | Nov 12 | Nov 15 | Nov 18 | Nov 22 | Nov 26 | Dec 2
    24 | Oct 19 | Oct 25 | Oct 29 | Nov 1 | Nov 4 | Nov 7 | Nov 10 | Nov 14 | Nov 19
    28 | Oct 8 | Oct 14 | Oct 19 | Oct 22 | Oct 26 | Oct 29 | Nov 2 | Nov 6 | Nov 12
    32 | Sep 23 | Sep 28 | Oct 2 | Oct 5 | Oct 8 | Oct 10 | Oct 14 | Oct 17 | Oct 22
    36 | Sep 17 | Sep 21 | Sep 24 | Sep 26 | Sep 29 | Oct 1 | Oct 3 | Oct 6 | Oct 10
Winona+Dam%2C+MN | Winona Dam MN | May 25 | May 8 | Apr 27
    16 | Oct 29 | Nov 4 | Nov 8 | Nov 12 | Nov 15 | Nov 19 | Nov 22 | Nov 27 | Dec 3
    20 | Oct 20 | Oct 26 | Oct 30 | Nov 2 | Nov 6 | Nov 9 | Nov 12 | Nov 16 | Nov 22
    24 | Oct 10 | Oct 16 | Oct 20 | Oct 24 | Oct 27 | Oct 30 | Nov 3 | Nov 7 | Nov 13
    28 | Oct 1 | Oct 6 | Oct 10 | Oct 13 | Oct 15 | Oct 18 | Oct 21 | Oct 25 | Oct 30
    32 | Sep 20 | Sep 25 | Sep 28 | Oct 1 | Oct 4 | Oct 6 | Oct 9 | Oct 13 | Oct 17
    36 | Sep 17 | Sep 21 | Sep 23 | Sep 26 | Sep 28 | Sep 30 | Oct 2 | Oct 5 | Oct 9
Horicon%2C+WI | Horicon WI | Jun 2 | May 17 | May 6
    16 | Oct 31 | Nov 6 | Nov 11 | Nov 15 | Nov 18 | Nov 22 | Nov 26 | Nov 30 | Dec 6
    20 | Oct 23 | Oct 29 | Nov 2 | Nov 5 | Nov 8 | Nov 11 | Nov 14 | Nov 18 | Nov 23
    24 | Oct 7 | Oct 13 | Oct 18 | Oct 22 | Oct 26 | Oct 30 | Nov 3 | Nov 8 | Nov 15
    28 | Sep 25 | Oct 2 | Oct 6 | Oct 10 | Oct 14 | Oct 17 | Oct 21 | Oct 26 | Nov 1
    32 | Sep 22 | Sep 25 | Sep 28 | Sep 30 | Oct 2 | Oct 4 | Oct 6 | Oct 9 | Oct 13
    36 | Sep 12 | Sep 15 | Sep 18 | Sep 20 | Sep 22 | Sep 24 | Sep 26 | Sep 29 | Oct 3
mondovi,+wi | Mondovi WI | Jun 11 | May 26 | May 16
    16 | Oct 22 | Oct 28 | Nov 1 | Nov 4 | Nov 7 | Nov 10 | Nov 14 | Nov 18 | Nov 23
    20 | Oct 11 | Oct 16 | Oct 20 | Oct 23 | Oct 27 | Oct 30 | Nov 2 | Nov 6 | Nov 12
    24 | Oct 5 | Oct 10 | Oct 13 | Oct 17 | Oct 20 | Oct 23 | Oct 26 | Oct 29 | Nov 4
    28 | Sep 24 | Sep 28 | Oct 1 | Oct 4 | Oct 6 | Oct 9 | Oct 11 | Oct 14 | Oct 19
    32 | Sep 18 | Sep 22 | Sep 24 | Sep 26 | Sep 28 | Sep 30 | Oct 3 | Oct 5 | Oct 9
    36 | Sep 7 | Sep 10 | Sep 13 | Sep 15 | Sep 17 | Sep 19 | Sep 21 | Sep 23 | Sep 27
bloomer,+wi | Bloomer WI | Jun 8 | May 23 | May 12
    16 | Oct 26 | Oct 31 | Nov 4 | Nov 7 | Nov 9 | Nov 12 | Nov 15 | Nov 18 | Nov 23
    20 | Oct 16 | Oct 21 | Oct 24 | Oct 27 | Oct 30 | Nov 1 | Nov 4 | Nov 7 | Nov 12
    24 | Oct 2 | Oct 8 | Oct 12 | Oct 15 | Oct 18 | Oct 22 | Oct 25 | Oct 29 | Nov 4
    28 | Sep 25 | Sep 29 | Oct 2 | Oct 4 | Oct 7 | Oct 9 | Oct 12 | Oct 15 | Oct 19
    32 | Sep 16 | Sep 20 | Sep 23 | Sep 25 | Sep 28 | Sep 30 | Oct 2 | Oct 5 | Oct 9
    36 | Aug 31 | Sep 5 | Sep 8 | Sep 12 | Sep 14 | Sep 17 | Sep 20 | Sep 24 | Sep 29
Rice+Lake%2C+WI | Rice Lake WI | Jun 12 | May 27 | May 16
    16 | Oct 21 | Oct 26 | Oct 30 | Nov 3 | Nov 6 | Nov 9 | Nov 13 | Nov 17 | Nov 22
    20 | Oct 13 | Oct 19 | Oct 23 | Oct 27 | Oct 30 | Nov 2 | Nov 6 | Nov 10 | Nov 16
    24 | Sep 30 | Oct 6 | Oct 10 | Oct 14 | Oct 17 | Oct 21 | Oct 24 | Oct 28 | Nov 3
    28 | Sep 20 | Sep 25 | Sep 28 | Oct 1 | Oct 4 | Oct 7 | Oct 9 | Oct 13 | Oct 17
    32 | Sep 14 | Sep 18 | Sep 21 | Sep 23 | Sep 26 | Sep 28 | Oct 1 | Oct 4 | Oct 8
    36 | Sep 5 | Sep 9 | Sep 12 | Sep 14 | Sep 16 | Sep 19 | Sep 21 | Sep 24 | Sep 28
waskish,+mn | Waskish MN | Jul 5 | Jun 10 | May 25
    16 | Oct 20 | Oct 25 | Oct 28 | Oct 31 | Nov 3 | Nov 6 | Nov 9 | Nov 12 | Nov 17
    20 | Oct 5 | Oct 11 | Oct 15 | Oct 19 | Oct 22 | Oct 25 | Oct 29 | Nov 2 | Nov 8
    24 | Sep 26 | Oct 1 | Oct 5 | Oct 8 | Oct 12 | Oct 15 | Oct 18 | Oct 22 | Oct 27
    28 | Sep 14 | Sep 19 | Sep 22 | Sep 25 | Sep 27 | Sep 30 | Oct 2 | Oct 5 | Oct 10
    32 | Sep 7 | Sep 12 | Sep 15 | Sep 17 | Sep 20 | Sep 22 | Sep 25 | Sep 28 | Oct 2
    36 | Aug 21 | Aug 27 | Aug 31 | Sep 3 | Sep 6 | Sep 9 | Sep 12 | Sep 16 | Sep 22
Dalton%2C+WI | Dalton WI | Jun 13 | May 26 | May 14
    16 | Oct 28 | Nov 3 | Nov 7 | Nov 10 | Nov 14 | Nov 17 | Nov 20 | Nov 24 | Nov 30
    20 | Oct 20 | Oct 24 | Oct 27 | Oct 30 | Nov 1 | Nov 4 | Nov 6 | Nov 10 | Nov 14
    24 | Oct 5 | Oct 11 | Oct 15 | Oct 19 | Oct 22 | Oct 25 | Oct 29 | Nov 2 | Nov 8
    28 | Sep 24 | Sep 29 | Oct 2 | Oct 5 | Oct 8 | Oct 11 | Oct 14 | Oct 18 | Oct 23
    32 | Sep 17 | Sep 21 | Sep 23 | Sep 26 | Sep 28 | Sep 30 | Oct 2 | Oct 4 | Oct 8
    36 | Sep 9 | Sep 13 | Sep 15 | Sep 17 | Sep 20 | Sep 22 | Sep 24 | Sep 26 | Sep 30
Mellen%2C+WI | Mellen WI | Jun 29 | Jun 12 | Jun 2
    16 | Oct 26 | Oct 30 | Nov 2 | Nov 4 | Nov 7 | Nov 9 | Nov 12 | Nov 15 | Nov 19
    20 | Oct 13 | Oct 19 | Oct 23 | Oct 26 | Oct 29 | Nov 1 | Nov 5 | Nov 9 | Nov 14
    24 | Oct 6 | Oct 11 | Oct 14 | Oct 17 | Oct 20 | Oct 22 | Oct 25 | Oct 29 | Nov 2
    28 | Sep 19 | Sep 23 | Sep 25 | Sep 27 | Sep 29 | Oct 1 | Oct 3 | Oct 5 | Oct 8
    32 | Sep 8 | Sep 12 | Sep 15 | Sep 17 | Sep 19 | Sep 22 | Sep 24 | Sep 27 | Oct 1
    36 | Aug 21 | Aug 27 | Aug 31 | Sep 4 | Sep 8 | Sep 11 | Sep 15 | Sep 19 | Sep 26
thorhult,+mn | Thorhult MN | Jul 6 | Jun 12 | May 27
    16 | Oct 6 | Oct 13 | Oct 18 | Oct 22 | Oct 26 | Oct 29 | Nov 3 | Nov 7 | Nov 14
    20 | Sep 29 | Oct 5 | Oct 9 | Oct 13 | Oct 17 | Oct 20 | Oct 24 | Oct 28 | Nov 3
    24 | Sep 19 | Sep 24 | Sep 28 | Oct 1 | Oct 4 | Oct 7 | Oct 10 | Oct 13 | Oct 18
    28 | Sep 6 | Sep 11 | Sep 15 | Sep 18 | Sep 20 | Sep 23 | Sep 26 | Sep 29 | Oct 4
    32 | Aug 28 | Sep 2 | Sep 5 | Sep 8 | Sep 11 | Sep 14 | Sep 17 | Sep 20 | Sep 25
    36 | Aug 13 | Aug 18 | Aug 23 | Aug 26 | Aug 30 | Sep 2 | Sep 6 | Sep 10 | Sep 16
Greenfield%2C+IA | Greenfield IA | May 13 | May 1 | Apr 23
    16 | Oct 30 | Nov 6 | Nov 10 | Nov 14 | Nov 18 | Nov 22 | Nov 26 | Nov 30 | Dec 7
    20 | Oct 25 | Oct 30 | Nov 4 | Nov 7 | Nov 11 | Nov 14 | Nov 18 | Nov 22 | Nov 28
    24 | Oct 12 | Oct 19 | Oct 23 | Oct 27 | Oct 31 | Nov 3 | Nov 7 | Nov 12 | Nov 18
    28 | Sep 29 | Oct 5 | Oct 10 | Oct 13 | Oct 17 | Oct 20 | Oct 24 | Oct 28 | Nov 3
    32 | Sep 22 | Sep 28 | Oct 2 | Oct 5 | Oct 8 | Oct 12 | Oct 15 | Oct 19 | Oct 25
    36 | Sep 17 | Sep 21 | Sep 25 | Sep 28 | Sep 30 | Oct 3 | Oct 6 | Oct 9 | Oct 14
wheaton,+il | Wheaton IL | May 31 | May 17 | May 7
    16 | Nov 5 | Nov 11 | Nov 15 | Nov 19 | Nov 22 | Nov 25 | Nov 29 | Dec 3 | Dec 9
    20 | Oct 28 | Nov 2 | Nov 6 | Nov 9 | Nov 12 | Nov 15 | Nov 18 | Nov 22 | Nov 28
    24 | Oct 22 | Oct 26 | Oct 29 | Nov 1 | Nov 3 | Nov 6 | Nov 9 | Nov 12 | Nov 16
    28 | Oct 4 | Oct 9 | Oct 14 | Oct 17 | Oct 20 | Oct 24 | Oct 27 | Oct 31 | Nov 6
    32 | Sep 26 | Sep 30 | Oct 3 | Oct 6 | Oct 8 | Oct 10 | Oct 13 | Oct 16 | Oct 20
    36 | Sep 18 | Sep 22 | Sep 25 | Sep 27 | Sep 30 | Oct 2 | Oct 4 | Oct 7 | Oct 11
Franklin%2C+PA | Franklin PA | Jun 14 | May 24 | May 10
    16 | Nov 20 | Nov 25 | Nov 29 | Dec 3 | Dec 6 | Dec 9 | Dec 12 | Dec 16 | Dec 22
    20 | Nov 4 | Nov 11 | Nov 15 | Nov 19 | Nov 22 | Nov 26 | Nov 30 | Dec 4 | Dec 10
    24 | Oct 27 | Oct 31 | Nov 3 | Nov 6 | Nov 8 | Nov 11 | Nov 14 | Nov 17 | Nov 21
    28 | Oct 19 | Oct 23 | Oct 26 | Oct 28 | Oct 30 | Nov 2 | Nov 4 | Nov 7 | Nov 11
    32 | Oct 5 | Oct 9 | Oct 12 | Oct 15 | Oct 17 | Oct 20 | Oct 22 | Oct 25 | Oct 29
    36 | Sep 19 | Sep 23 | Sep 27 | Sep 29 | Oct 2 | Oct 5 | Oct 7 | Oct 11 | Oct 15
Lagrange%2C+IN | Lagrange IN | Jun 1 | May 15 | May 4
    16 | Nov 13 | Nov 18 | Nov 22 | Nov 26 | Nov 29 | Dec 2 | Dec 6 | Dec 10 | Dec 15
    20 | Oct 27 | Nov 3 | Nov 8 | Nov 13 | Nov 17 | Nov 21 | Nov 25 | Dec 1 | Dec 8
    24 | Oct 15 | Oct 22 | Oct 27 | Nov 1 | Nov 5 | Nov 9 | Nov 13 | Nov 18 | Nov 25
    28 | Oct 6 | Oct 12 | Oct 16 | Oct 20 | Oct 23 | Oct 27 | Oct 30 | Nov 4 | Nov 10
    32 | Sep 23 | Sep 28 | Oct 2 | Oct 5 | Oct 8 | Oct 10 | Oct 13 | Oct 17 | Oct 22
    36 | Sep 18 | Sep 22 | Sep 24 | Sep 27 | Sep 29 | Oct 1 | Oct 4 | Oct 6 | Oct 10
Greensburg%2C+IN | Greensburg IN | May 15 | May 1 | Apr 22
    16 | Nov 14 | Nov 21 | Nov 27 | Dec 2 | Dec 6 | Dec 10 | Dec 15 | Dec 20 | Dec 28
    20 | Oct 31 | Nov 8 | Nov 13 | Nov 18 | Nov 22 | Nov 26 | Dec 1 | Dec 6 | Dec 13
    24 | Oct 20 | Oct 27 | Oct 31 | Nov 5 | Nov 8 | Nov 12 | Nov 16 | Nov 21 | Nov 28
    28 | Oct 9 | Oct 15 | Oct 20 | Oct 24 | Oct 27 | Oct 31 | Nov 3 | Nov 8 | Nov 14
    32 | Sep 30 | Oct 6 | Oct 10 | Oct 13 | Oct 16 | Oct 19 | Oct 23 | Oct 27 | Nov 1
    36 | Sep 23 | Sep 27 | Sep 30 | Oct 3 | Oct 5 | Oct 8 | Oct 10 | Oct 13 | Oct 17
"""
"""A station's page, its name and the three spring dates read (36 °F, with 10, 50 and 80 %); then, by
threshold [°F], the first freezes of autumn with 10 to 90 %."""


def cells(line: str) -> list[str]:
    """The cells of one printed row."""
    return [cell.strip() for cell in line.split("|")]


def month_day(printed: str) -> str:
    """A printed date such as Apr 7, or Apr 07, as 04-07."""
    month, day = printed.split()
    return f"{MONTHS.index(month) + 1:02d}-{int(day):02d}"


def dated(odds: tuple[int, ...], printed: list[str]) -> dict[int, str]:
    """Dates by probability; what is printed as a dash is left out."""
    pairs = zip(odds, printed, strict=True)
    return {chance: month_day(text) for chance, text in pairs if text != "--"}


def georgetown() -> Iterator[FreezeTable]:
    """Three thresholds at one station, five probabilities a side."""
    odds = (10, 33, 50, 67, 90)
    for line in GEORGETOWN_ROWS.strip().splitlines():
        threshold, *dates = cells(line)
        spring, autumn = dated(odds, dates[:5]), dated(odds, dates[5:])
        yield FreezeTable("Georgetown DE REC", int(threshold), spring, autumn, GEORGETOWN)


def three_odds(rows: str, source: Source) -> Iterator[FreezeTable]:
    """The tables with three probabilities a side."""
    for line in rows.strip().splitlines():
        station, threshold, *dates = cells(line)
        spring, autumn = dated((90, 50, 10), dates[:3]), dated((10, 50, 90), dates[3:])
        yield FreezeTable(station, int(threshold), spring, autumn, source)


def reprinted(pages: str) -> Iterator[tuple[str, Source, list[str], int, dict[int, str]]]:
    """For each row of nine: its station, page, the page's other dates, the threshold [°F] and the dates."""
    station, source, others = "", GEORGETOWN, list[str]()
    for line in pages.strip().splitlines():
        first, *rest = cells(line)
        if line.startswith(" "):
            yield station, source, others, int(first), dated(NINE, rest)
            continue
        station, *others = rest
        source = Source(SELLER, f"First and last frost dates for {station}", REPRINT + first)


def spring_pages() -> Iterator[FreezeTable]:
    """The pages whose spring dates were read in full."""
    for station, source, others, threshold, spring in reprinted(SPRING_PAGES):
        autumn = dated((20,), others) if threshold == 32 else {}
        yield FreezeTable(station, threshold, spring, autumn, source)


def autumn_pages() -> Iterator[FreezeTable]:
    """The pages whose autumn dates were read in full."""
    for station, source, others, threshold, autumn in reprinted(AUTUMN_PAGES):
        spring = dated((10, 50, 80), others) if threshold == 36 else {}
        yield FreezeTable(station, threshold, spring, autumn, source)


TABLES: tuple[FreezeTable, ...] = (
    *georgetown(),
    *three_odds(MASSACHUSETTS_ROWS, MASSACHUSETTS),
    *three_odds(CONNECTICUT_ROWS, CONNECTICUT),
    *spring_pages(),
    *autumn_pages(),
)
"""Every table, one a station and threshold."""
