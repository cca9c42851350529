# The printed job pack, and units as tape, scale and dipstick have them

unit-mm = mm
unit-m = m
unit-km = km
unit-m2 = m²
unit-m3 = m³
unit-l = L
unit-kg = kg
unit-l-per-m2 = L/m²
unit-kg-per-m2 = kg/m²
unit-km-per-h = km/h
unit-celsius = °C
unit-in = in
unit-ft = ft
unit-mi = mi
unit-ft2 = ft²
unit-ft3 = ft³
unit-gal = gal
unit-lb = lb
unit-gal-per-yd2 = gal/yd²
unit-lb-per-yd2 = lb/yd²
unit-mi-per-h = mph
unit-fahrenheit = °F
unit-h = h
unit-min = min

# Words that hold others together
sheet-list = { $first }, { $second }
sheet-both = { $first } and { $second }
sheet-either = { $first } or { $second }
sheet-range = { $low } to { $high }
sheet-percent = { $number } %
sheet-about = about { $counted }
sheet-about-range = about { $counted }, { $low } to { $high }
sheet-until = to { $time }
sheet-page = page { $page } of { $pages }
sheet-footer = lengthsman { $version }, seed { $seed }
sheet-title = Job pack, { $district }, { $date }

# Days
day-monday = Monday
day-tuesday = Tuesday
day-wednesday = Wednesday
day-thursday = Thursday
day-friday = Friday
day-saturday = Saturday
day-sunday = Sunday
month-january = January
month-february = February
month-march = March
month-april = April
month-may = May
month-june = June
month-july = July
month-august = August
month-september = September
month-october = October
month-november = November
month-december = December
month-short-january = Jan
month-short-february = Feb
month-short-march = Mar
month-short-april = Apr
month-short-may = May
month-short-june = Jun
month-short-july = Jul
month-short-august = Aug
month-short-september = Sep
month-short-october = Oct
month-short-november = Nov
month-short-december = Dec
sheet-long-date = { $weekday } { $day } { $month } { $year }
sheet-short-date = { $day } { $month }
sheet-overdue = { $day }, overdue

# Directions
wind-north = north
wind-north-east = north-east
wind-east = east
wind-south-east = south-east
wind-south = south
wind-south-west = south-west
wind-west = west
wind-north-west = north-west
sheet-left = left
sheet-right = right
sheet-centre = centre
sheet-left-by = left { $distance }
sheet-right-by = right { $distance }

# Counted
sheet-holes = { $count ->
    [one] 1 hole
   *[other] { $count } holes
}
sheet-holes-in-cuts = { $cuts ->
    [one] { $holes } in 1 cut
   *[other] { $holes } in { $cuts } cuts
}
sheet-holes-counted-in-cuts = { $holes ->
    [one] 1 hole in { $cuts } cuts
   *[other] { $holes } holes in { $cuts } cuts
}
sheet-holes-in-one-cut = { $count ->
    [one] 1 hole in one cut, see below
   *[other] { $count } holes in one cut, see below
}
sheet-people = { $count ->
    [one] 1 person
   *[other] { $count } people
}
sheet-devices = { $count ->
    [one] 1 device
   *[other] { $count } devices
}
sheet-cones-counted = { $count ->
    [one] 1 cone
   *[other] { $count } cones
}
sheet-signs = signs
sheet-cones = cones
sheet-flaggers = flaggers
sheet-shield-vehicles = shield vehicles
sheet-flagger = flagger
sheet-flagger-station = flagger station
sheet-shield-vehicle = shield vehicle
sheet-passes = { $count ->
    [one] 1 pass
   *[other] { $count } passes
}
sheet-passes-vibrating = { $count } vibrating
sheet-passes-then-vibrating = { $fixed } + { $vibrating } vibrating

# Severity, wetness, goods
sheet-severity-none = not rated
sheet-severity-low = low
sheet-severity-medium = medium
sheet-severity-high = high
sheet-severity-may-be-worse = { $now }, { $worse } { $day }?
sheet-wetness-dry = dry
sheet-wetness-damp = damp
sheet-wetness-wet = wet
sheet-wetness-seepage = seepage
sheet-wetness-pumping = pumping
sheet-good-base = base
sheet-good-water = water
sheet-good-binder = binder
sheet-good-stone = cover stone
sheet-good-spoil = spoil

# What must not be overlooked before the truck leaves
sheet-look-at-this = Look at this before you leave
sheet-alert-back-late = The shift ends at { $end }: back by { $back } in nine days of ten, so the last stops may have to wait for another day.
sheet-alert-no-patch = { $count ->
    [one] 1 cut is no patch and is not in this pack: ask the engineer. They are listed behind this sheet.
   *[other] { $count } cuts are no patch and are not in this pack: ask the engineer. They are listed behind this sheet.
}
sheet-alert-at-stops = { $count ->
    [one] Stop { $stops }: { $what }
   *[other] Stops { $stops }: { $what }
}
sheet-alert-more = and { $count } more: look at every zone sheet before you leave.
sheet-alert-too-narrow = only { $width } stays open: traffic can't pass the work. The authorised person decides how it is led.
sheet-alert-closed = nothing stays open: traffic can't pass the work. The authorised person decides how it is led.
sheet-alert-people = { $needed } people needed, flaggers included; the crew has { $people }.
sheet-alert-signs = { $needed } signs needed, the depot has { $have }. Don't begin without them.
sheet-alert-cones = { $needed } cones needed, the depot has { $have }. Don't begin without them.
sheet-alert-overload = Trip { $trip }: { $most } aboard at the most, the truck may carry { $allowed }.

# Cover: the day
sheet-job-pack = Job pack
sheet-nothing-no-hole = Nothing to do today: no usable hole was reported.
sheet-nothing-none-fits = { $count ->
    [one] Nothing to do today: none of the 1 reported hole could be put into this day's round.
   *[other] Nothing to do today: none of the { $count } reported holes could be put into this day's round.
}
sheet-no-daylight = no daylight
sheet-fact-stops = stops
sheet-fact-holes = holes
sheet-fact-leave-depot = leave depot
sheet-fact-go-on-at = go on at
sheet-fact-back = back
sheet-fact-back-tipped = back, spoil tipped
sheet-fact-back-by = nine days in ten back by
sheet-fact-shift = shift
sheet-fact-sun = sunrise, sunset
sheet-fact-driving = driving
sheet-fact-crew = crew
sheet-fact-truck = truck
sheet-fact-plant = plant needed
sheet-fact-part-of = part of
sheet-part-of-work-plan = a work plan
sheet-fact-left-out-overdue = left out though overdue
sheet-sprayer = sprayer
sheet-pouring-pot = pouring pot
sheet-head-from = from
sheet-head-to = to
sheet-head-stop = stop
sheet-head-what = what
sheet-head-drive = drive there
sheet-to-yard = to { $yard }
sheet-back-to-depot = back to the depot
sheet-load-for-trip = load for trip { $trip }
sheet-wait = wait
sheet-break = break
sheet-tip-spoil = tip the spoil
sheet-times-median = Times count on each repair’s median (P50): as many days run later as earlier.
sheet-look-note = A look is a short stop off the carriageway: nobody steps onto the road, and where there is no room to stop, drive on. The local code decides.
sheet-look-at = look at repair, { $road }
sheet-from-the-shoulder = from the shoulder, { $minutes }
sheet-looks-on-the-way = Looks at earlier repairs on the way
sheet-head-earlier-repair = earlier repair
sheet-head-found = found
sheet-look-holds = holds
sheet-look-worn = worn
sheet-look-failed = failed
sheet-look-not-made = not looked at
sheet-look-mended = mended { $day }
sheet-look-after-opening = { $days } days after it was opened
sheet-look-found-worn = found worn, looked at again after { $days } days
sheet-look-mark-note = Side: of the road’s own direction, that of growing chainage. Worn: stone lost, binder up, edges open. Failed, or a hole beside it: tell it as a new hole. Not looked at: no safe place to stop, or no time.
sheet-learnt-more = { $count ->
    [one] { $count } reason
   *[other] { $count } reasons
  } more in plan.json.
sheet-from-the-record = From the record:
sheet-alt-district-map = Map of the district's roads with the depot
sheet-alt-round-map = Map of the round: roads, the way driven, numbered stops

# Cover: the load
sheet-trip = { $count ->
    [one] Trip { $trip }: stop { $first }
   *[other] Trip { $trip }: stops { $first } to { $last }
}
sheet-trip-empty = Trip { $trip }
sheet-on-truck = { $count ->
    [one] Needed on the truck: stop { $first }
   *[other] Needed on the truck: stops { $first } to { $last }
}
sheet-on-truck-empty = Needed on the truck
sheet-enough = enough: base { $base }, water { $water }, binder { $binder }, stone { $stone }
sheet-enough-of-each = enough of each: { $chance }
sheet-enough-and-more-at = { $enough }; more at { $places }
sheet-mass-of = { $mass } of { $payload }
sheet-mass-and-more = { $mass }, and what else is on it
sheet-greatest-mass = greatest mass aboard
sheet-spoil-back = spoil coming back { $volume }, { $mass }; with base at most
sheet-head-compartment = compartment or tank
sheet-head-load = what to load
sheet-head-volume = volume
sheet-head-mass = mass
sheet-head-room = room
sheet-head-how-full = how full
sheet-head-done = done
sheet-head-on-road = on the road
sheet-head-needed = needed
sheet-head-have = have
sheet-head-out = out
sheet-short = { $count } short
sheet-head-whole-day = the whole day
sheet-head-as-reported = as reported
sheet-total-base = base, loose
sheet-total-base-stock = base, from the stock
sheet-total-water = water to add
sheet-total-binder = binder, hot
sheet-total-stone = cover stone
sheet-total-spoil = spoil, loose
sheet-total-work = work at the holes
sheet-day-by-hand = The day by hand:
sheet-suffices = The chance that nothing runs out all day is { $chance }.
sheet-p10-p50-p90 = P10, P50, P90: of the day’s sum one, five, nine in ten are below.

# Cover: cautions
sheet-cautions = Cautions
sheet-caution-traffic = Live traffic:
sheet-caution-traffic-text = never work outside the closed space; high-visibility clothing; a way out; stop if a device is missing.
sheet-caution-hot-binder = Hot binder:
sheet-caution-hot-binder-text = burns: gloves, face shield, long sleeves; burnt skin under cool water, see a doctor, don't pull binder off.
sheet-caution-cutback = Vapour and fire:
sheet-caution-cutback-text = cutback gives off solvent: no flame, no smoking, no pumping near ignition; extinguisher at hand.
sheet-caution-emulsion = Emulsion:
sheet-caution-emulsion-text = don't boil it, don't let it freeze, never into a tank with another binder; eyes and skin covered.
sheet-caution-dust = Silica dust:
sheet-caution-dust-text = cut wet or with a dust mask that is made for it.
sheet-caution-services = Buried services:
sheet-caution-services-text = ask and mark before digging; if in doubt, stop.
sheet-caution-vibration = Vibration, noise:
sheet-caution-vibration-text = take turns at roller, plate and breaker; hearing protection.
sheet-caution-lifting = Lifting:
sheet-caution-lifting-text = two people or a machine for anything heavy; keep the back straight.
sheet-caution-weather = Heat and cold:
sheet-caution-weather-text = water, shade, breaks; watch each other.
sheet-caution-drains = Drains and water:
sheet-caution-drains-text = cover inlets; no binder, spoil or wash water into drains.
sheet-cautions-usual = These are the usual cautions, not all of them. Local codes, the safety data sheets and people trained and authorised for the work come first.
sheet-cautions-today = Cautions for today’s materials and plant
sheet-proposal = The layout is a proposal.
sheet-proposal-decides = The local traffic-control code and the person authorised under it decide.
sheet-sign-crew-leader = crew leader
sheet-sign-authorised = person authorised for traffic control
sheet-sign-date-time = date, time

# Cover: what is not in the pack
sheet-left-out = Left out:
sheet-input = Input:
sheet-details-behind = Details behind this sheet.
sheet-left-out-of-work-plan = This pack is one round of a work plan; what no round does stands in its work-plan.json.
sheet-left-out-none = Every usable hole is in this pack.
sheet-left-out-summary = { $count ->
    [one] 1 hole not in this pack
   *[other] { $count } holes not in this pack
}, { $overdue ->
    [0] none of them overdue
   *[other] { $overdue } of them overdue
}: { $reasons }.
sheet-left-out-less-urgent = less urgent than what fills the day
sheet-left-out-not-worth = not worth the time they take
sheet-left-out-no-window = no window of the day is long enough
sheet-left-out-exceeds-shift = longer than the shift
sheet-left-out-exceeds-truck = more than the truck can carry
sheet-left-out-unreachable = no road leads there and back
sheet-left-out-not-a-patch = not patches: ask the engineer
sheet-left-out-no-crew = no crew has the plant for them
sheet-left-out-as-asked = left out as asked
sheet-left-out-off-roads = off the roads of this district
sheet-left-out-other = { $count } for other reasons
sheet-reason-of-its-own = each for a reason of its own
sheet-more-left-out = and { $count } more, less pressing; all in plan.json
sheet-more-problems = and { $count } more, all in plan.json
sheet-and-more = and { $count } more
sheet-input-of-work-plan = What was wrong with it stands there too.
sheet-input-fine = Nothing was wrong with the input.
sheet-input-summary = { $count ->
    [one] 1 problem in the input
   *[other] { $count } problems in the input
}, { $refused ->
    [0] none refused
    [one] 1 record refused
   *[other] { $refused } records refused
}.
sheet-signs-to-take = Signs to take along, each with its stand
sheet-not-a-patch = Not a patch: ask the engineer
sheet-not-in-pack = Not in this pack, most pressing first (bold day: overdue; a day with ?: may be worse from then)
sheet-what-was-wrong = What was wrong with the input
sheet-head-hole = hole
sheet-head-road = road
sheet-head-severity = severity
sheet-head-mend-by = mend by
sheet-head-work = work
sheet-head-why-no-patch = where, why not a patch, what a patch would need (P90)
sheet-head-where = where
sheet-head-record = record
sheet-head-wrong = what was wrong; what would be right
sheet-engineer-figures = cut { $area }, up to { $depth } deep; base { $base }, spoil { $spoil }, up to { $work } of work

# Sheet of a work zone
sheet-fact-latitude = latitude, longitude
sheet-fact-work-space = work space at chainage
sheet-fact-heads = worked lane heads
sheet-fact-speed = speed limit
sheet-fact-lanes = lanes
sheet-lanes-sealed = { $lanes }, sealed { $width }
sheet-fact-keeps = traffic keeps
sheet-fact-left-open = left open
sheet-fact-duration-class = duration class
sheet-fact-set-up = set up, take in
sheet-fact-busiest-hour = busiest hour
sheet-fact-shared = shared
sheet-chainage-rule = Chainage counts from { $from } towards { $towards }.
sheet-before-place = { $distance } before { $place }
sheet-past-place = { $distance } past { $place }
sheet-before-place-range = { $near } to { $far } before { $place }
sheet-past-place-range = { $near } to { $far } past { $place }
sheet-queue-clears = { $flow } vehicles/h: stop { $stop }, { $count } to { $vehicles } stand, { $back } back
sheet-queue-none = { $flow } vehicles/h, carries { $most } vehicles/h: none
sheet-queue-grows = { $flow } vehicles/h, carries { $most } vehicles/h: grows
sheet-queue-unknown = count not known, good up to { $most } vehicles/h
sheet-sharing-saves = { $holes }, one zone: saves { $saved }
sheet-sharing-saves-and-takes = { $holes }, one zone: saves { $saved }, takes { $more } more
sheet-sharing-takes = { $holes }, one zone: takes { $more } more
sheet-sharing-as-long = { $holes }, one zone: takes as long as apart
sheet-layout-source = Layout: { $source }.
sheet-placing = Placing
sheet-removing = Removing
sheet-in-this-order = , in this order
sheet-right-left = right, left: as the driver sees it.
sheet-head-number = no.
sheet-head-device = device
sheet-head-for = for
sheet-head-from-work = from the work space
sheet-head-side = side, from axis
sheet-head-step = step
sheet-head-in = in
sheet-head-count-back = count back
sheet-head-list = list
sheet-traffic-our-lane = our lane
sheet-traffic-oncoming = oncoming
sheet-traffic-joining = joining
sheet-on-side-road = on { $road }, { $distance } from its junction at { $junction }
sheet-spot-before = { $distance } before it
sheet-spot-past = { $distance } past it
sheet-spot-inside = { $distance } into it
sheet-spot-at-start = at its start
sheet-spot-at-end = at its end
sheet-spot-its-start = its start
sheet-spot-its-end = its end
sheet-spot-whole = along the whole of it
sheet-spot-between = from { $from } to { $to }
sheet-every = every { $distance }
sheet-apart = { $range } apart
sheet-side-by-side = side by side
sheet-drive = drive { $distance }
sheet-walk = walk { $distance }
sheet-turn = { $count ->
    [one] turn
   *[other] turn { $count } times
}
sheet-way-time = { $way }: { $time }
sheet-cuts-in-zone = Cuts in this zone
sheet-remarks-behind = { $count ->
    [one] 1 remark on the next page: read it before anything goes out.
   *[other] { $count } remarks on the next page: read them before anything goes out.
}
sheet-remarks-on-zone = Remarks on the work zone
sheet-alt-place-map = Map of the neighbourhood with the place of the work
sheet-alt-zone = Plan of the work zone with all devices and distances

# Sheet of a cut
sheet-names-and-more = { $names } and { $count } more
sheet-size-corners = { $size }, { $corners } corners
sheet-size-deep = { $size }, { $depth } deep
sheet-outline = outline
sheet-fact-chainage = chainage
sheet-fact-place = place
sheet-fact-reported = reported
sheet-fact-mend-by = mend by
sheet-fact-work = work
sheet-fact-diagonals = diagonals
sheet-fact-severity = severity
sheet-fact-compact-with = compact with
sheet-place-lane = lane
sheet-place-wheel-path = wheel path
sheet-place-edge = edge
sheet-place-shoulder = shoulder
sheet-place-centre = centre line
sheet-holes-of-one-cut = { $count } holes in one cut: { $sizes }
sheet-so-long = { $range } long
sheet-so-wide = { $range } wide
sheet-so-deep = { $range } deep
sheet-reported-often = { $name } reported { $count } times: { $reports }
sheet-reported-often-since = { $name } reported { $count } times, first { $first }: { $reports }
sheet-reports-more = { $count } more in plan.json
sheet-by-hand = By hand:
sheet-head-quantity = quantity
sheet-head-p10-to-p90 = P10 to P90
sheet-head-how = how worked out
sheet-head-how-metric = how worked out, in metric
sheet-quantity-cut-area = cut, area
sheet-quantity-cut-length = cut, length to saw or pick
sheet-quantity-depth = depth of the dug hole
sheet-quantity-layers = layers
sheet-quantity-layer-compacted = one layer, compacted
sheet-quantity-layer-loose = one layer, placed loose
sheet-quantity-base-compacted = base, compacted, with crown
sheet-quantity-base-loose = base, loose to place
sheet-quantity-base-dry = base, dry mass
sheet-quantity-base-stock = base, from the stock
sheet-quantity-water = water to add
sheet-quantity-water-to-dry = water to dry out first
sheet-quantity-passes = passes
sheet-quantity-rolling = rolling, all layers
sheet-quantity-seal-area = new seal, area
sheet-quantity-binder-rate = binder rate
sheet-quantity-binder-hot = binder, hot
sheet-quantity-stone-rate = cover stone rate
sheet-quantity-stone = cover stone
sheet-quantity-stone-loose = cover stone, loose
sheet-quantity-spoil-loose = spoil, loose
sheet-quantity-spoil-mass = spoil, mass
sheet-passes-how = { $lanes ->
    [one] each layer, 1 lane across; { $compactor }
   *[other] each layer, { $lanes } lanes across; { $compactor }
}
sheet-container = { $count } × { $name } of { $volume }
sheet-containers = { $containers }; { $rest } left over
sheet-compactor-last-layer = { $machine }, last layer { $last }
sheet-head-stage = stage
sheet-head-time = time
sheet-head-look = look at it, tick it; write down what was measured
sheet-stage-traffic-control-out = traffic control out
sheet-stage-mark-out = mark out
sheet-stage-cut-out = cut out
sheet-stage-fill = fill
sheet-stage-compact = compact
sheet-stage-seal = seal
sheet-stage-clean-up = clean up
sheet-stage-traffic-control-in = traffic control in
sheet-check-stands = stands as on the zone sheet
sheet-check-driven = driven through and looked at
sheet-check-services = services marked
sheet-check-cleaned = hole cleaned, looked at
sheet-check-lines = lines straight, square, in sound seal
sheet-check-outwards = from the middle outwards
sheet-check-upright = sides upright in 4 places
sheet-check-bottom = bottom firm and flat
sheet-check-spoil = spoil on the truck
sheet-check-falls-apart = in the hand: falls apart, add water
sheet-check-keeps-shape = keeps its shape
sheet-check-oozes = oozes, spread and dry
sheet-check-loose = { $thickness } loose per layer
sheet-check-compactor = with the { $machine }
sheet-check-edges = edges kept from the drum
sheet-check-corners = corners first, then inwards
sheet-check-passes = each layer { $passes }
sheet-check-proud = last layer placed { $proud } proud
sheet-check-clean-dry = clean and dry
sheet-check-binder-at = binder at { $temperature }
sheet-check-stone = stone at once, one layer
sheet-check-bedded = rolled until bedded
sheet-check-swept = swept: road, shoulder, drains
sheet-check-swept-again = again after { $first }, { $second } h
sheet-check-tools = tools and material counted back
sheet-check-reverse = reverse order
sheet-check-count = count in = count out
sheet-check-opened = opened { $wait } after the stone, { $speed } for { $hours } h
sheet-field-time = time
sheet-field-long = long
sheet-field-wide = wide
sheet-field-photo = photo
sheet-field-depth-found = depth found
sheet-field-moisture = moisture
sheet-field-percent = %
sheet-field-water = water
sheet-field-layer = layer { $layer }
sheet-field-passes = passes { $layer }:
sheet-field-proud = stands proud
sheet-field-binder = binder
sheet-field-stone = stone
sheet-field-crown = crown
sheet-if-deeper = If the hole turns out deeper
sheet-head-depth-found = depth found
sheet-head-layers = layers
sheet-head-base = base
sheet-head-loose = loose
sheet-head-water = water
sheet-cautions-behind = Cautions, in full behind the cover:
sheet-remarks = Remarks
sheet-alt-cut = Plan of the cut with dimensions
sheet-alt-section = Section with layers
sheet-alt-pattern = Order of compacting, from the corners

# What the record teaches
sheet-learnt-growth = the plan now expects { $percent } { $more ->
    [more] more
   *[less] less
  } to be dug
sheet-learnt-base = the plan now loads { $percent } { $more ->
    [more] more
   *[less] less
  } base
sheet-learnt-water = the plan now loads { $percent } { $more ->
    [more] more
   *[less] less
  } water
sheet-learnt-binder = the plan now loads { $percent } { $more ->
    [more] more
   *[less] less
  } binder
sheet-learnt-cover-stone = the plan now loads { $percent } { $more ->
    [more] more
   *[less] less
  } cover stone
sheet-learnt-time = the plan now allows { $percent } { $more ->
    [more] more
   *[less] less
  } time
sheet-learnt-repairs-district = { $count ->
    [one] 1 repair of the district
   *[other] { $count } repairs of the district
}
sheet-learnt-repairs-there = { $count ->
    [one] 1 repair there
   *[other] { $count } repairs there
}
sheet-learnt-repairs-crew = { $count ->
    [one] 1 repair of theirs
   *[other] { $count } repairs of theirs
}
sheet-learnt-took = { $repairs } took { $times } times what was planned
sheet-learnt-turned-out = { $repairs } turned out { $times } times what the rules expect
sheet-learnt-time-taken = { $repairs } took { $times } times the time planned
sheet-learnt-believed = { $median } ({ $low } to { $high })
sheet-learnt-district = { $does }, because { $took }; weighed with the rules { $believed }
sheet-learnt-road = { $does } on { $road }, because { $took }; weighed with the others { $believed }
sheet-learnt-crew = { $does } for { $crew }, because { $took }; weighed with the others { $believed }
sheet-learnt-kept = { $sentence }; kept within { $least } to { $most }
sheet-roads-motorway = motorways
sheet-roads-trunk = trunk roads
sheet-roads-primary = primary roads
sheet-roads-secondary = secondary roads
sheet-roads-tertiary = tertiary roads
sheet-roads-unclassified = unclassified roads
sheet-roads-residential = residential roads
sheet-roads-service = service roads
sheet-roads-track = tracks
sheet-roads-with-shoulder = { $roads } with a shoulder
sheet-roads-without-shoulder = { $roads } without a shoulder
