# The crew's phone.
crew-nav = Parts of the crew's app
crew-nav-round = Round
crew-nav-new-hole = New hole
crew-nav-nearby = Look again
crew-nav-queue = Queue
crew-back = Back
crew-nothing-here = There is nothing here.
crew-today = Today
crew-yes = Yes
crew-no = No
crew-done = done
crew-note = Remark
crew-less = { $what }: less
crew-more = { $what }: more
crew-larger = { $what }: larger
crew-smaller = { $what }: smaller
crew-minutes = { $n } min
crew-planned-is = Planned: { $value }
crew-spread = (8 of 10: { $low } to { $high })
crew-install-words = Put the app on this phone's home screen: it then opens without signal like any other.
crew-install = Install
crew-not-now = Not now

# what is queued
crew-queue = What was told
crew-badge-sent = All sent
crew-badge-queued = { $count } queued
crew-badge-trouble-queued = { $trouble }, { $count } queued
crew-badge-refused = { $count } refused
crew-queue-sum = Waiting: { $waiting }. Photos waiting: { $photos }. Refused: { $refused }.
crew-queue-last = Last in step with the office at { $at }.
crew-queue-empty = Nothing was told on this phone yet.
crew-sync-now = Send and fetch now
crew-sync-running = Sending and fetching
crew-told-waiting = Queued
crew-told-sent = Sent
crew-told-refused = Refused
crew-refused-why = The server says:
crew-trouble-says = It says:
crew-put-right = Put right
crew-tell-again = Tell again
crew-drop = Drop it
crew-drop-sure = Yes, drop it for good
crew-withdraw = This was a mistake
crew-withdraw-sure = Yes, take it back
crew-withdrawn = Taken back
crew-sent-count = Sent: { $count }
crew-photos = Photos
crew-photo = Take a photo
crew-photo-of = Photo: { $note }
crew-photo-no-room = There is no room for the photo on this phone. Delete something else and take it again.
crew-photos-kept = { $count ->
    [one] { $count } photo kept
   *[other] { $count } photos kept
  }
crew-kind-hole-reported = New hole
crew-kind-hole-measured = Hole measured
crew-kind-zone-opened = Zone opened
crew-kind-zone-closed = Zone closed
crew-kind-hole-cut = Cut out
crew-kind-layer-placed = Layer placed
crew-kind-sealed = Sealed
crew-kind-opened-to-traffic = Opened to traffic
crew-kind-inspected = Repair looked at
crew-kind-failed = Repair failed
crew-kind-stock-moved = Spoil on the truck
crew-kind-stock-counted = Stock counted
crew-kind-time-booked = Time booked
crew-kind-photo-taken = Photo
crew-kind-corrected = Correction
crew-kind-signed = Signed

# the round
crew-which = Which crew?
crew-no-rounds = No round is planned for the crew that this phone knows of. With signal it looks again by itself.
crew-no-files = The drawings and lists of this day are not on the phone. What the record has is shown; with signal the rest comes by itself if the office has made it.
crew-next-site = Site { $n } of { $of }
crew-day-done = All sites of this day are done.
crew-sites = Sites
crew-sites-count = { $count ->
    [one] { $count } site
   *[other] { $count } sites
  }
crew-holes-count = { $count ->
    [one] { $count } hole
   *[other] { $count } holes
  }
crew-devices-count = { $count ->
    [one] { $count } device
   *[other] { $count } devices
  }
crew-layers-count = { $count ->
    [one] { $count } layer
   *[other] { $count } layers
  }
crew-drive = Drive { $way }, { $time }; leave at { $from }
crew-other-days = Other days
crew-daylight = Sunrise { $sunrise }, sunset { $sunset }
crew-sketch = The day's way with its sites
crew-site-planned = to do
crew-site-open = at work
crew-site-mended = signs still out
crew-site-done = done
crew-load = Load
crew-trip = Trip { $n }
crew-suffices = Chance that it is enough: { $chance }
crew-load-devices = { $signs } signs, { $cones } cones
crew-load-planned-only = As planned for the holes, without a margin.
crew-nearest = { $what }: more at { $place }, { $time } away
crew-nearest-short = { $what }: more at { $place }
crew-changed = The plan has changed
crew-changed-seen = Seen
crew-change-added = New: { $road }
crew-change-removed = Taken out: { $road }
crew-change-moved = { $road } is now on { $day }
crew-change-amounts = { $road }: other amounts
crew-change-order = The order of the sites is another

# a site
crew-site = Site
crew-site-gone = This is not in the crew's rounds any more.
crew-where = Where
crew-chainage = { $way } from { $from }, towards { $towards }
crew-windows = Work may hinder traffic at
crew-zone = Work zone
crew-zone-none = No layout was planned.
crew-zone-proposal = The layout is a proposal. The local traffic-control code and the person authorised under it decide.
crew-zone-opened-by = Opened by { $who } at { $at }; devices out: { $count }
crew-zone-closed-by = Closed by { $who } at { $at }; devices back: { $count }
crew-zone-not-open = The zone is not open. Nobody goes into the lane before the signs stand.
crew-remarks = Remarks on the layout
crew-repairs = Holes
crew-hole-n = Hole { $n }
crew-next-hole = Next hole
crew-next-stop = Next site
crew-to-site = To the site
crew-drawing-place = Where it is
crew-drawing-zone = Work zone
crew-drawing-cut = Cut
crew-drawing-section = Section
crew-drawing-pattern = Rolling pattern

# devices
crew-devices = Devices
crew-devices-out = Put devices out
crew-devices-back = Take devices in
crew-turn-out = Out
crew-turn-back = Back in
crew-caution-out = Live traffic. High-visibility clothing, face the traffic, a way to step aside. Stop when a device is missing.
crew-caution-back = Live traffic. In the reverse order of placing: what protects you comes in last.
crew-count-out = Out: { $n } of { $of }
crew-count-back = Back: { $n } of { $of }
crew-step-opposing-advance = Advance signs, oncoming
crew-step-advance = Advance signs, our lane
crew-step-joining = Signs on roads that join
crew-step-joining-station = Flaggers on roads that join
crew-step-opposing-station = Flagger, oncoming
crew-step-station = Flagger, our lane
crew-step-lane = The lane, with traffic
crew-step-end-of-opposing = End sign, oncoming
crew-step-end-of-work = End sign, our lane
crew-step-to-the-work = To the work
crew-drive-on = drive { $way }
crew-walk = walk { $way }
crew-turn-round = turn round
crew-before-work = { $way } before the work
crew-at-work = at the work
crew-past-work = { $way } past the work
crew-our-lane = our lane
crew-oncoming = oncoming
crew-put-out = Put out: { $what }
crew-taken-in = Taken in: { $what }
crew-devices-planned = Planned devices: { $count }
crew-counted-out = Devices put out
crew-counted-back = Devices taken in
crew-went-out = Went out: { $count }
crew-agreed = The authorised person has driven through and agrees
crew-agreed-hint = Without that the zone is not open.
crew-not-all-out = Not ticked: { $count }
crew-open-zone = The zone is open
crew-open-again = Tell the opening again
crew-fewer-back = { $count ->
    [one] { $count } device is still on the road
   *[other] { $count } devices are still on the road
  }
crew-looked-for = We drove through and looked for it
crew-close-zone = The zone is closed
crew-close-missing = Close, missing: { $count }

# a repair
crew-repair = Repair
crew-stages = Stages
crew-stage-traffic-out = Traffic control out
crew-stage-mark-out = Mark out
crew-stage-cut = Cut out
crew-stage-fill = Fill
crew-stage-compact = Compact
crew-stage-seal = Seal
crew-stage-clean-up = Clean up and open
crew-stage-traffic-in = Traffic control in
crew-how = How
crew-stage-back = Stage before
crew-next-stage = Next stage
crew-tell-cut = Tell: cut out
crew-tell-compact = Tell: layer { $n } is in
crew-tell-seal = Tell: sealed
crew-tell-clean-up = Tell: open to traffic
crew-cautions = Cautions
crew-checks = Checks
crew-check-agreed = The layout is agreed with the authorised person
crew-check-seen-through = Driven through once: every sign can be seen
crew-check-vest = High-visibility clothing on
crew-check-cleaned = Hole cleaned and looked at
crew-check-sound = Lines lie in sound pavement, at most 100 mm outside the hole
crew-check-straight = Lines straight, corners square
crew-check-services = No cables or pipes below, or they are marked
crew-check-centre-out = Dug from the centre outward
crew-check-spoil-off = Spoil is on the truck, none on pavement, shoulder or near a drain
crew-check-same-kind = Same kind of base as the road has
crew-check-spread = Spread evenly, into the corners
crew-check-edges = Cut edges protected from the drum
crew-check-corners-first = From the corners towards the centre
crew-check-proud = Last layer stands slightly above the road
crew-check-swept = Surface swept clean
crew-check-overlap = Binder overlaps the sound pavement by 80 mm
crew-check-one-layer = One single layer of cover stone, at once
crew-check-bedded = Rolled until the stone is well bedded
crew-check-swept-up = Swept; nothing loose on the pavement
crew-check-drains = Shoulder and drains are clean
crew-check-tools = Tools and left-over material counted back
crew-check-reverse = Devices in, in the reverse order
crew-check-nothing-left = Driven through once: nothing is left
crew-cut-length = Length of the cut, along the road
crew-cut-width = Width of the cut, across the road
crew-area-is = Area: { $area }
crew-depth-planned = Planned depth
crew-depths = Depth in several places
crew-depth-n = Depth { $n }
crew-depth-another = One more place
crew-deeper-than-planned = Deeper than planned: { $deepest } instead of { $planned }. See what it takes now.
crew-bigger = It is bigger than planned
crew-bottom-firm = Is the bottom firm?
crew-bottom-soft = Dig on to firm ground, or ask the engineer. A patch on soft ground sinks.
crew-sides-upright = Are the sides upright and firm?
crew-wetness = How wet is it below?
crew-wetness-dry = dry
crew-wetness-damp = damp
crew-wetness-wet = wet
crew-wetness-seepage = water seeps in
crew-wetness-pumping = water is pumped up by traffic
crew-water-below = Water comes from somewhere. Tell the office: without drainage the repair will not last.
crew-spoil = Spoil taken away
crew-in-counts = Count in { $plural }
crew-in-measures = Enter the measure instead
crew-layer-of = Layer { $n } of { $of }
crew-layer-n = Layer { $n }
crew-layer-another = One more layer
crew-loose-thickness = Spread { $loose } loose; it becomes { $firm }
crew-moisture = A handful, squeezed
crew-moisture-falls-apart = falls apart
crew-moisture-falls-apart-do = too dry: add water
crew-moisture-keeps-shape = keeps its shape
crew-moisture-keeps-shape-do = right
crew-moisture-oozes = oozes
crew-moisture-oozes-do = too wet: spread it and let it dry
crew-base-used = Base used in this layer
crew-water-used = Water added to this layer
crew-base-whole = Base for the whole hole, loose
crew-water-whole = Water for the whole hole
crew-passes-still = Passes without vibration
crew-passes-vibrating = Passes with vibration, or of plate or tamper
crew-layer-thickness = Thickness when compacted
crew-caution-binder = Binder burns: face shield, gloves, long sleeves, cool water at hand. No flame near vapour. The safety data sheet decides.
crew-surface-dry = Is the surface dry?
crew-surface-wet = Do not seal a wet surface: the binder will not hold.
crew-binder = Binder, grade or product
crew-binder-hint = As it stands on the drum.
crew-binder-used = Binder used, as sprayed
crew-binder-whole = Binder, as sprayed
crew-stone-used = Cover stone used
crew-stone-whole = Cover stone
crew-sealed-area = Sealed area
crew-crown = Height above the road around
crew-surface-temperature = Temperature of the surface
crew-opening-after = First traffic not before { $time } after the last stone
crew-opening-from = First traffic from { $at } (in { $time })
crew-opening-now = First traffic from { $at }: if no stone turns under a steered wheel
crew-opening-too-cold = Colder than the plan's table goes. Ask before you seal or open.
crew-opening-row = from { $from }: { $time }
crew-opening-slow = At most { $speed }/h for { $hours } h. The authorised person decides.
crew-opened-by = Opened to traffic by { $who } at { $at }
crew-sign = Time and signature
crew-time-minutes = Minutes at this repair
crew-since-begun = { $n } min since it was begun on this phone
crew-people = People
crew-unticked = Checks not ticked: { $count }
crew-sign-now = I answer for it: { $name }
crew-signed-by = Signed by { $who }, { $at }
crew-repair-planned = planned
crew-repair-cut-out = cut out
crew-repair-filling = filling
crew-repair-sealed = sealed
crew-repair-open = open to traffic
crew-repair-failed = failed

# bigger than planned
crew-depth-now = Depth now
crew-measure-photo = Measure from a photo
crew-layers-now = { $count ->
    [one] { $count } layer of { $thickness }
   *[other] { $count } layers of { $thickness } each
  }
crew-material = Material
crew-now-needs = Needs now
crew-more-than-planned = To plan
crew-good-base = Base, loose
crew-good-water = Water
crew-good-binder = Binder
crew-good-cover-stone = Cover stone
crew-good-spoil = Spoil
crew-truck-enough = By the plan the truck carries enough, if nothing else took more.
crew-truck-short = By the plan the truck is short of:
crew-beyond-table = Deeper than the plan's table goes ({ $last }). The amounts are in proportion to depth: a guess. Stop and ask the office.
crew-bigger-how = Worked out on this phone from the plan's row for { $row }, in proportion to area ({ $area } instead of { $planned }). The office plans it anew.
crew-bigger-no-plan = The plan's table is not on this phone: layers and amounts can't be worked out here. Tell the sizes; the office works it out.
crew-ask-replan = Tell it and ask to plan anew
crew-replan-waiting = The request is queued; it goes out with the next signal.
crew-replan-sent = The office has the request.
crew-replan-refused = The request was refused. See the queue.

# a new hole, an older repair
crew-caution-stop = Stop only where it is safe. Nobody on the road without traffic control.
crew-here = This phone knows where it is to within { $accuracy }.
crew-here-looking = Looking where this phone is.
crew-here-denied = This phone may not say where it is. Allow it in the browser, or type the place.
crew-here-none = This phone can't say where it is. Type the place.
crew-here-taken = Taken from the phone, to within { $accuracy }
crew-take-here = The hole is here
crew-lat = Latitude
crew-lon = Longitude
crew-hole-length = Length, along the road
crew-hole-width = Width, across the road
crew-hole-depth = Greatest depth
crew-lane-position = Where across the road?
crew-lane-lane = in the lane, between the wheel paths
crew-lane-wheel-path = in a wheel path
crew-lane-edge = at the edge of the seal
crew-lane-shoulder = on the shoulder
crew-lane-centre = at the centre line
crew-place-first = The place is missing
crew-tell-hole = Tell of the hole
crew-hole-told = Told. It is kept on this phone and sent when there is signal.
crew-holes-told = Told of on this phone
crew-nearby-words = Repairs that were made, the nearest first. Look how they hold.
crew-nearby-none = No repair made is known on this phone.
crew-inspect = Look at a repair
crew-found = What do you see?
crew-found-holds = It holds
crew-found-holds-hint = even, tight, stone in place
crew-found-worn = It holds but wears
crew-found-worn-hint = stone lost, binder up, edges open
crew-found-failed = It has failed
crew-found-failed-hint = a hole again: it is told as a new hole too
crew-tell-found = Tell what was found

# told differently
crew-differ = Told differently on two phones
crew-differ-words = Talk to each other and measure again; who tells it again puts it right.
crew-differ-counts = Counts: { $value }, { $who }
crew-differ-other = Told otherwise: { $value }, { $who }
crew-field-area-m2 = Area cut
crew-field-depths-mm = Depths
crew-field-bottom-firm = Bottom firm
crew-field-sides-upright = Sides upright
crew-field-wetness = Wetness
crew-field-zone = Zone
crew-field-thickness-mm = Thickness
crew-field-base-loose-m3 = Base, loose
crew-field-water-l = Water
crew-field-moisture = Moisture in the hand
crew-field-passes-still = Passes without vibration
crew-field-passes-vibrating = Passes with vibration
crew-field-binder-l = Binder
crew-field-binder = Product of the binder
crew-field-cover-stone-m3 = Cover stone
crew-field-sealed-area-m2 = Sealed area
crew-field-crown-mm = Height above the road
crew-field-dry = Surface dry
crew-field-devices-out = Devices out
crew-field-devices-in = Devices back
crew-field-position = Place
crew-field-road = Road
crew-field-layout = Layout
crew-field-stretches = Stretches
crew-field-round = Round

# whose is what on the phone, and its room
crew-queue-others = { $count ->
    [one] { $count } entry of { $who } waits on this phone. It is sent when that person is signed in on it.
   *[other] { $count } entries of { $who } wait on this phone. They are sent when that person is signed in on it.
  }
crew-room = Room on this phone
crew-room-taken = { $taken } of { $of } taken.
crew-room-kept = The browser keeps it, also when it is short of room.
crew-room-not-kept = The browser may throw it away when it is short of room. Put the app on the home screen, or ask the browser to keep it.
crew-room-ask = Ask the browser to keep it
crew-room-denied = The browser did not agree. Put the app on the home screen and ask again.
crew-room-goes = What the office has goes from here by itself: photos after { $photo ->
    [one] one day
   *[other] { $photo } days
  } (a small picture stays), the rest after { $sent } days, drawings and lists { $file } days after their round. What waits or was refused stays.

crew-photo-hole = From the photo: the hole has { $area } ± { $error }.
crew-photo-cut = Cut proposed for it: { $area }, { $length } by { $width }. The crew leader looks at the hole and decides.
crew-photo-depth = Enter the depth to have a cut proposed.
crew-photo-no-signal = No signal: the outline is kept, and the cut is proposed when there is signal.
crew-photo-not-signed-in = Sign in to have a cut proposed.

# looks at earlier repairs on the round
crew-look = Look at an earlier repair
crew-look-open = to look at
crew-look-passed = not looked at
crew-look-along = { $way } along the road
crew-look-why = Why:
crew-look-pass = No safe place to stop
crew-look-was-passed = Not looked at: no safe place to stop. Nothing was told of it; the office plans the look again.
crew-look-again-on-list = Put it back on the list
crew-caution-look = Stop off the carriageway, on the repair’s side. Mind the traffic when getting out; nobody steps onto the road. No safe place to stop: drive on. The local traffic-control code decides.
crew-done-there = What was done there
crew-done-there-unknown = What was done there is not on this phone.
crew-layers = Layers

# what a crew sees around its work
crew-not-told = Not told
crew-drainage = How does water leave the road here?
crew-drainage-hint = It need not be told. Where several are so: the worst.
crew-drainage-ditch-works = ditch works
crew-drainage-kerb-and-gully = kerb and gully
crew-drainage-ditch-blocked = ditch blocked
crew-drainage-gully-blocked = gully blocked
crew-drainage-high-verge = verge higher than the road
crew-drainage-no-drainage = nothing drains it
crew-drainage-standing-water = water stands beside it
crew-base-kind = Base: kind or source
crew-base-kind-hint = It need not be told, e.g. crushed rock 0/20 and its pit.
crew-weather = Weather at sealing
crew-weather-hint = It need not be told. Where several are so: the last of them.
crew-weather-dry = dry
crew-weather-dry-hint = dry the day before too
crew-weather-damp = damp
crew-weather-damp-hint = dew, fog or drizzle
crew-weather-rain-within-a-day = rain within a day
crew-weather-rain-within-a-day-hint = the day before, or it will rain tomorrow
crew-weather-frost = frost
crew-weather-frost-hint = last night, or it will freeze tonight
crew-air-temperature = Temperature of the air
crew-field-drainage = Drainage
crew-field-base = Base: kind or source
crew-field-weather = Weather at sealing
crew-field-air-temperature-c = Temperature of the air
