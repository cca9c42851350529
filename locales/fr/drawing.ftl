# Les dessins : plan d’une zone de travaux, plan et coupe d’une découpe, cartes

drawing-north = N
drawing-hole = trou
drawing-cut = découpe
drawing-traffic-along = circulation, le long de la route
drawing-along = le long de la route
drawing-along-chainage = le long de la route, PK croissants
drawing-new-seal = bord du nouvel enduit
drawing-new-seal-over = bord du nouvel enduit, { $overlap } au-delà
drawing-edge-of-seal = bord de l’enduit
drawing-centre-line = axe
drawing-long-side-along = grand côté le long de la route
drawing-long-side-across = grand côté d’équerre à la route
drawing-long-side-left = grand côté tourné de { $angle }° à gauche
drawing-long-side-right = grand côté tourné de { $angle }° à droite
drawing-chainage-0 = PK 0
drawing-trip = voyage { $trip }
drawing-not-today = pas ce jour
drawing-section = coupe, largeur hors échelle
drawing-layer = couche { $layer }
drawing-loose = vrac { $thickness }
drawing-seal = liant et gravillons, bombement
drawing-seal-crown = liant et gravillons, bombement { $crown }
drawing-overlap = recouvrement autour
drawing-overlap-by = recouvrement { $overlap } autour
drawing-pattern = depuis les angles ; loin des bords
drawing-pattern-last = dernière : { $pattern }
drawing-part-advance-warning = présignalisation
drawing-part-taper = biseau
drawing-part-buffer = espace tampon
drawing-part-work-space = zone de travaux
drawing-part-downstream-taper = biseau de sortie
drawing-sign = panneau
drawing-cone = cône
drawing-flagger = signaleur
drawing-shield-vehicle = véhicule de protection
drawing-on-road = sur { $road }
drawing-into-road = à { $distance }
drawing-moved-by = déplacé de { $distance }
drawing-work-zone = Zone de travaux
drawing-work-zone-on = Zone de travaux sur { $road }
drawing-nothing-open = rien ne reste ouvert
drawing-open = ouvert { $width }
drawing-open-impassable = ouvert { $width } : la circulation ne passe pas
drawing-moved = déplacé de la place de la règle
drawing-closed = fermé à côté du chantier
drawing-broken-length = longueur non dessinée en entier
drawing-scale-whole = à l’échelle en long, pas en travers
drawing-scale-core = à l’échelle en long du premier au dernier cône, pas le reste
drawing-scale-none = hors échelle : les distances valent
drawing-to-place = vers { $place }
drawing-signs-counted = { $count ->
    [one] { $count } panneau
   *[other] { $count } panneaux
}
drawing-flaggers-counted = { $count ->
    [one] { $count } signaleur
   *[other] { $count } signaleurs
}
drawing-shield-vehicles-counted = { $count ->
    [one] { $count } véhicule de protection
   *[other] { $count } véhicules de protection
}
drawing-no-devices = rien n’est posé sur la route
drawing-description = { $layout }. Plan, une proposition : { $devices }. La zone de travaux a { $length } de long ; { $width } restent ouverts à côté. La circulation de la voie en travaux va de gauche à droite. Chaque chose porte son numéro dans l’ordre de pose.
