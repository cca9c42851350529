# The month's report, printed and as a page

report-title = { $month } { $year }
report-date = { $day } { $month } { $year }
report-about = Patching of surface-treated roads: what was done, what it cost, what is left and what lasts.
report-goes-on = The month goes on: what counts is what was told up to { $day }.
report-footer = lengthsman { $version }, made from the record up to event { $event }
report-all = all
report-named = { $what }: { $value }
report-price = { $amount } { $currency }
report-spread = { $middle } ({ $low }–{ $high })
report-road-not-known = road not known
report-road = road
report-days = { $count ->
    [one] { $count } day
   *[other] { $count } days
}

## What was done
report-done = What was done
report-repairs-opened = repairs opened to traffic
report-area-cut = area cut
report-area-of-repairs = { $area } of { $count } repairs
report-month-before = the month before
report-repairs-counted = { $count ->
    [one] { $count } repair
   *[other] { $count } repairs
}
report-new-holes = new holes told of
report-by-each-road = By road
report-more-roads = { $count ->
    [one] { $count } more road
   *[other] { $count } more roads
}
report-repairs = repairs
report-cost-of-month = cost of the month
report-told-and-mended = Holes told of and mended, month by month
report-told = told of
report-mended = mended
report-told-and-mended-in = { $month }: { $told } told of, { $mended } mended

## What it cost
report-cost = What it cost
report-for = for
report-money = money
report-share = share
report-per-repair = for each repair
report-per-m2 = for each m² cut
report-per-ft2 = for each ft² cut
report-not-every-area = not every area told
report-planned-and-actual = Planned against actual, of repairs that tell both
report-part-of-planned = Actual as a part of planned
report-planned = planned
report-actual = actual
report-more = more
report-of-planned = { $what }: { $share } of planned
report-part-labour = labour
report-part-plant = plant
report-part-base = base
report-part-cover-stone = cover stone
report-part-binder = binder
report-part-water = water
report-part-other-material = other material
report-part-wasted = wasted
report-part-count-difference = difference at counts
report-part-price-difference = difference of price
report-base-loose = base, loose
report-time-at-zone = time at the zone

## Stock
report-stock = Stock
report-nothing-held = Nothing was held or moved.
report-used-beyond-books = { $item }: more was used than the books know of; count it and book what came.
report-item = item
report-opening = opening
report-bought = bought
report-into-repairs = into repairs
report-lost = lost
report-closing = closing
report-worth = worth
report-stock-spoil = spoil
report-stock-signs = signs
report-stock-cones = cones
report-stock-other-devices = other devices

## Risk that is left
report-left = Risk that is left
report-open-holes = holes open at the end
report-past-their-day = past their day
report-severity = severity
report-severity-counted = { $count } { $severity }
report-none-judged = none judged
report-not-judged = not judged
report-riskiest = The riskiest
report-hole = hole
report-risk-points = risk points
report-open-for = open for
report-due = due
report-risk-note = Risk points put holes in order and measure no probability; no number of points means that a hole is safe. Holes that are not measured, or on no road that is kept up, are not judged: measure them.

## What lasts
report-lasts = What lasts
report-lives-known = lives of repairs known
report-lives-failed = of these failed
report-lasts-note = The record shows what went together, not what was the cause: crews get different roads. A difference that chance alone would make is none.
report-nothing-to-compare = The record tells nothing yet by which repairs could be compared.
report-by = by
report-group = group
report-failed = failed
report-half-outlast = half outlast
report-mean-life = mean life within the window
report-mean-within = { $mean } ± { $error } of { $days }
report-too-few = too few to tell
report-not-reached = not reached
report-still-whole-by = Repairs still whole, by { $by }
report-still-whole = still whole
report-at-risk = at risk
report-days-unit = days
report-curve-in-words = { $group }: { $lives } lives, { $failures } failures, half outlast { $median }
report-differ = The groups differ: chance alone would part them so far in { $cases } of 100 cases.
report-pairs-differ = Two by two these differ: { $pairs }.
report-pair = { $first } and { $second }
report-no-difference = No difference is shown: chance alone would part the groups so far in { $cases } of 100 cases. That is no proof that they are alike.
report-groups-too-few = Whether the groups differ: too few to tell.
report-less-than = less than { $number }
report-by-crew = crew
report-by-material = base material
report-by-binder = binder
report-by-layers = number of layers
report-by-moisture = base in the hand
report-by-wetness = water in the hole
report-by-surface = surface when sealed
report-by-weather = weather at sealing
report-by-temperature = temperature of the air
report-by-month = month
report-by-season = season
report-by-road = road
report-by-road-class = class of road
report-by-traffic = traffic
report-by-drainage = drainage
report-by-rules = keeping to the rules
report-group-not-known = not known
report-group-dry-surface = dry surface
report-group-wet-surface = wet surface
report-group-by-rules = by the rules
report-group-not-by-rules = not by the rules
report-group-falls-apart = falls apart
report-group-keeps-shape = keeps its shape
report-group-oozes = oozes
report-group-layers = { $count ->
    [one] { $count } layer
   *[other] { $count } layers
}
report-group-traffic-under = under { $most } a day
report-group-traffic-between = { $from } to { $to } a day
report-group-traffic-from = { $least } a day and more
report-group-ditch-works = ditch works
report-group-ditch-blocked = ditch blocked
report-group-kerb-and-gully = kerb and gully
report-group-gully-blocked = gully blocked
report-group-high-verge = verge higher than the road
report-group-no-drainage = no drainage
report-group-standing-water = standing water
report-group-weather-dry = dry weather
report-group-weather-damp = dew, fog or drizzle
report-group-weather-rain = rain within a day
report-group-weather-frost = frost by night
report-group-temperature-under = under { $most }
report-group-temperature-between = { $from } to { $to }
report-group-temperature-from = { $least } and more
report-class-motorway = motorway
report-class-trunk = trunk
report-class-primary = primary
report-class-secondary = secondary
report-class-tertiary = tertiary
report-class-unclassified = unclassified
report-class-residential = residential
report-class-service = service
report-class-track = track

## Where patching nears its end
report-stop = Where patching nears its end
report-stretches = stretches looked at
report-past-patching = past patching
report-repair-price = price of one repair
report-years-looked-at = years looked at
report-engineer-decides = **The road engineer decides.** The stretches on which renewing now compares best with patching on, ten at most; on those past patching renewing now costs less in nine futures of ten. Metres or feet are along the section of the road file.
report-stop-caption = Costs over { $years } years at today’s worth, thousands of { $currency }: mean, in brackets from what one future in ten is below to what nine are. Cheaper: in so many futures.
report-m-along = m along
report-ft-along = ft along
report-holes-a-year = holes a year
report-patched-on = patched on
report-renewed-now = renewed now
report-renewed-by = renewed by
report-even-in-year = even in year
report-renewing-cheaper = renewing cheaper
report-later = later
report-renewal-reseal = reseal
report-renewal-new-base = new base and seal
report-stop-note = The model knows holes, prices and lives of repairs. It does not know what lies under the surface, water from beside, traffic to come, works of others, or what a closed road costs its users. Prices and lives of renewals are the agency’s setting. Pavement design belongs to a licensed engineer.
report-no-roads = No roads are known, so nothing can be said of stretches of them.
report-too-short = Less than a quarter of a year is in the record: too little to tell how many holes a year brings.
report-no-cost = No repair of the last twelve months has a cost in the books, so patching on has no price.
report-no-hole = No new hole of the record lies on a road that is kept up.
report-no-law = The rules name no law of repairs’ lives that can be worked with.
report-unworkable = With the settings of the rules it can’t be worked out.

## How the figures were worked out
report-workings = How the figures were worked out, and what they can’t say
report-figure = figure
report-how = how
report-where-from = where from
report-source-record = the record
report-source-books = the books
report-source-handbook = handbook, { $page }
report-source-books-and-handbook = the books; handbook, { $page }
report-source-distance = handbook, { $page }; distance: { $source }
report-source-arrival = handbook, { $page }; holes that are a repair’s failure are not new
report-figure-repairs = Repairs, area
report-how-repairs = repairs that traffic ran over for the first time in the month (sealed, where nobody told that they were opened); area as cut, as far as crews told it
report-figure-cost = Cost
report-how-cost = time booked at the district’s prices, material at the average price of what was in stock when it was used; what was booked on a round is shared among its repairs
report-figure-stock = Stock
report-how-stock = opening + bought − into repairs − lost = closing, over depots, trucks and zones; lost is thrown away less what counts found, and may hold a difference of price
report-figure-planned = Planned against actual
report-how-planned = sums over the repairs of the month of which both are told; planned is the last plan of each
report-figure-risk = Risk points, severity, due day
report-how-risk = as the hole was last measured, judged on the last day of the report
report-figure-lives = Lives of repairs
report-how-lives = from opening until somebody told or found that it failed, or a new hole was seen within { $distance } on the same side; else whole until { $day }
report-figure-lasts = What lasts
report-how-lasts = product-limit curves, bands of { $confidence }, log-rank test; fewer than { $failures } failures are too few to tell
report-figure-stop-price = Stop patching: price of one repair
report-how-stop-price = all costs of the last twelve months, { $cost }, over { $repairs } repairs = { $price }
report-figure-stop-holes = Stop patching: new holes a year
report-how-stop-holes = { $holes } new holes in { $years } years on the roads that are kept up, { $length } km years: { $rate } a kilometre and year; { $drawn }
report-how-stop-anew = ; where a road got a new surface, holes and time count from that day on
report-not-drawn = stretches differ no more than by chance, so each has the district’s rate
report-drawn-by = each stretch’s own count is drawn towards it as if { $holes } expected holes had been seen elsewhere
report-figure-stop-lives = Stop patching: lives of repairs
report-how-law-of-lives = Weibull law fitted to { $lives } lives with { $failures } failures: scale { $scale } years, shape { $shape }
report-how-law-of-rules = too few failures to tell; Weibull law of the rules: scale { $scale } years, shape { $shape } ({ $source })
report-figure-stop-costs = Stop patching: costs and break-even
report-how-stop-costs = { $futures } futures of { $years } years at { $interest } interest; new holes grow by { $growth } a year; { $renewals }
report-renewal-in-words = { $renewal } { $price } per m², { $left } of new holes left, written off over { $years } years ({ $source })
report-limit-not-told = What nobody told is not in the record and not in this report. What is told later changes the report of a month that is over.
report-limit-sizes = Sizes of holes are the last that were told by the time the report was made, not those of the last day of the month.
report-limit-not-judged = { $count ->
    [one] { $count } open hole is not judged.
   *[other] { $count } open holes are not judged.
}
report-limit-no-place = No repair is on a known road: no new hole could be told to be a repair’s failure.
report-limit-resurfaced-nowhere = { $count ->
    [one] { $count } new surface was told of that lies on no road that is known: repairs under it count as still watched.
   *[other] { $count } new surfaces were told of that lie on no road that is known: repairs under them count as still watched.
}
report-limit-findings = { $count ->
    [one] The books have { $count } finding that somebody has to look at; it may change stock and cost.
   *[other] The books have { $count } findings that somebody has to look at; they may change stock and cost.
}
report-budget-caption = What money for renewals leaves, when it goes first where it spares most holes; thousands of { $currency }
report-budget-across = money for renewals, thousands
report-budget-up = holes to come in { $years } years, failed repairs among them
