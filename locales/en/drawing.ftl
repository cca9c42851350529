# The drawings: plan of a work zone, plan and section of a cut, maps

drawing-north = N
drawing-hole = hole
drawing-cut = cut
drawing-traffic-along = traffic, along the road
drawing-along = along the road
drawing-along-chainage = along the road, increasing chainage
drawing-new-seal = edge of the new seal
drawing-new-seal-over = edge of the new seal, { $overlap } over
drawing-edge-of-seal = edge of the seal
drawing-centre-line = centre line
drawing-long-side-along = long side along the road
drawing-long-side-across = long side square across
drawing-long-side-left = long side turned { $angle }° to the left
drawing-long-side-right = long side turned { $angle }° to the right
drawing-chainage-0 = chainage 0
drawing-trip = trip { $trip }
drawing-not-today = not today
drawing-section = section, width not to scale
drawing-layer = layer { $layer }
drawing-loose = loose { $thickness }
drawing-seal = binder and cover stone, crown
drawing-seal-crown = binder and cover stone, crown { $crown }
drawing-overlap = overlap all round
drawing-overlap-by = overlap { $overlap } all round
drawing-pattern = from the corners; off the edges
drawing-pattern-last = last: { $pattern }
drawing-part-advance-warning = advance warning
drawing-part-taper = taper
drawing-part-buffer = buffer
drawing-part-work-space = work space
drawing-part-downstream-taper = downstream taper
drawing-sign = sign
drawing-cone = cone
drawing-flagger = flagger
drawing-shield-vehicle = shield vehicle
drawing-on-road = on { $road }
drawing-into-road = { $distance } in
drawing-moved-by = moved { $distance }
drawing-work-zone = Work zone
drawing-work-zone-on = Work zone on { $road }
drawing-nothing-open = nothing stays open
drawing-open = open { $width }
drawing-open-impassable = open { $width }: traffic can't pass
drawing-moved = moved from the rule's place
drawing-closed = closed beside the work
drawing-broken-length = length not drawn in full
drawing-scale-whole = along the road to scale, across it not
drawing-scale-core = from first to last cone along the road to scale, the rest not
drawing-scale-none = not to scale: distances hold
drawing-to-place = to { $place }
drawing-signs-counted = { $count ->
    [one] 1 sign
   *[other] { $count } signs
}
drawing-flaggers-counted = { $count ->
    [one] 1 flagger
   *[other] { $count } flaggers
}
drawing-shield-vehicles-counted = { $count ->
    [one] 1 shield vehicle
   *[other] { $count } shield vehicles
}
drawing-no-devices = nothing stands on the road
drawing-description = { $layout }. Plan, a proposal: { $devices }. The work space is { $length } long; { $width } stays open beside it. Traffic in the lane worked in goes from left to right. Each thing has its number in the order of placing.
