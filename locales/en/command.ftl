# What the command says on standard output

command-days = { $count ->
    [one] 1 day from { $day }
   *[other] { $count } days from { $day }
}
command-holes = { $count ->
    [one] 1 hole
   *[other] { $count } holes
}
command-zones = { $count ->
    [one] 1 zone
   *[other] { $count } zones
}
command-rows = rows in the list
command-holes-in-round = holes in the round
command-holes-in-rounds = holes in the rounds
command-holes-later = holes left for later
command-more-reports = more reports of them
command-rows-refused = rows refused
command-mended-before = mended before
command-back = back at the depot
command-job-pack = job pack
command-work-plan = work plan
command-cost = cost
command-changed = changed
command-in-round = { $holes }, at { $zones } work zones, in { $trips } trips
command-back-at = { $median }, nine days in ten by { $late }
command-round = { $holes } at { $zones }, back { $back }
command-round-loads = { $holes } at { $zones }, back { $back }, loads hold { $chance }
command-costs = { $total } { $currency }: risk until mended { $waiting }, risk left { $left }, crews { $time }, driving { $driving }
command-not-worked-out = what one more crew, hour or cubic metre would bring is not worked out where there are so many sites
command-one-more-crew = one more crew like { $crew }
command-one-more-hour = one hour more a shift
command-one-more-cubic-metre = one cubic metre more a truck
command-saves = { $what }: saves { $saves } { $currency }, { $zones } zones
command-added = { $holes } added to { $to }
command-moved = { $holes } from { $from } to { $to }
command-dropped = { $holes } no longer in the round of { $from }
command-looks = looks on the way
command-looks-made = { $made }, left { $left }
command-learnt = from the record
