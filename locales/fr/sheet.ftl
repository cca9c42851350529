# Le dossier de travail imprimé, et les unités comme sur le mètre, la balance et la jauge

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

sheet-list = { $first }, { $second }
sheet-both = { $first } et { $second }
sheet-either = { $first } ou { $second }
sheet-range = { $low } à { $high }
sheet-percent = { $number } %
sheet-about = environ { $counted }
sheet-about-range = environ { $counted }, { $low } à { $high }
sheet-until = jusqu’à { $time }
sheet-page = page { $page } sur { $pages }
sheet-footer = lengthsman { $version }, graine { $seed }
sheet-title = Dossier de travail, { $district }, { $date }

day-monday = lundi
day-tuesday = mardi
day-wednesday = mercredi
day-thursday = jeudi
day-friday = vendredi
day-saturday = samedi
day-sunday = dimanche
month-january = janvier
month-february = février
month-march = mars
month-april = avril
month-may = mai
month-june = juin
month-july = juillet
month-august = août
month-september = septembre
month-october = octobre
month-november = novembre
month-december = décembre
month-short-january = janv.
month-short-february = févr.
month-short-march = mars
month-short-april = avr.
month-short-may = mai
month-short-june = juin
month-short-july = juil.
month-short-august = août
month-short-september = sept.
month-short-october = oct.
month-short-november = nov.
month-short-december = déc.
sheet-long-date = { $weekday } { $day } { $month } { $year }
sheet-short-date = { $day } { $month }
sheet-overdue = { $day }, en retard

wind-north = nord
wind-north-east = nord-est
wind-east = est
wind-south-east = sud-est
wind-south = sud
wind-south-west = sud-ouest
wind-west = ouest
wind-north-west = nord-ouest
sheet-left = gauche
sheet-right = droite
sheet-centre = axe
sheet-left-by = gauche { $distance }
sheet-right-by = droite { $distance }

sheet-holes = { $count ->
    [one] { $count } nid-de-poule
   *[other] { $count } nids-de-poule
}
sheet-holes-in-cuts = { $cuts ->
    [one] { $holes } dans 1 découpe
   *[other] { $holes } dans { $cuts } découpes
}
sheet-holes-counted-in-cuts = { $holes ->
    [one] 1 nid-de-poule dans { $cuts } découpes
   *[other] { $holes } nids-de-poule dans { $cuts } découpes
}
sheet-holes-in-one-cut = { $count ->
    [one] 1 nid-de-poule dans une découpe, voir plus bas
   *[other] { $count } nids-de-poule dans une découpe, voir plus bas
}
sheet-people = { $count ->
    [one] { $count } personne
   *[other] { $count } personnes
}
sheet-devices = { $count ->
    [one] { $count } élément
   *[other] { $count } éléments
}
sheet-cones-counted = { $count ->
    [one] { $count } cône
   *[other] { $count } cônes
}
sheet-signs = panneaux
sheet-cones = cônes
sheet-flaggers = signaleurs
sheet-shield-vehicles = véhicules de protection
sheet-flagger = signaleur
sheet-flagger-station = poste de signaleur
sheet-shield-vehicle = véhicule de protection
sheet-passes = { $count ->
    [one] { $count } passe
   *[other] { $count } passes
}
sheet-passes-vibrating = { $count } vibrées
sheet-passes-then-vibrating = { $fixed } + { $vibrating } vibrées

sheet-severity-none = non classé
sheet-severity-low = faible
sheet-severity-medium = moyenne
sheet-severity-high = forte
sheet-severity-may-be-worse = { $now }, { $worse } le { $day } ?
sheet-wetness-dry = sec
sheet-wetness-damp = humide
sheet-wetness-wet = mouillé
sheet-wetness-seepage = suintement
sheet-wetness-pumping = pompage
sheet-good-base = grave
sheet-good-water = eau
sheet-good-binder = liant
sheet-good-stone = gravillons
sheet-good-spoil = déblais

sheet-look-at-this = À regarder avant de partir
sheet-alert-back-late = Le poste finit à { $end } : retour avant { $back } neuf jours sur dix, les derniers arrêts devront peut-être attendre un autre jour.
sheet-alert-no-patch = { $count ->
    [one] { $count } découpe n’est pas une simple réparation et n’est pas dans ce dossier : demander à l’ingénieur. Elle est dans la liste derrière cette feuille.
   *[other] { $count } découpes ne sont pas de simples réparations et ne sont pas dans ce dossier : demander à l’ingénieur. Elles sont dans la liste derrière cette feuille.
}
sheet-alert-at-stops = { $count ->
    [one] Arrêt { $stops } : { $what }
   *[other] Arrêts { $stops } : { $what }
}
sheet-alert-more = et { $count } de plus : regarder chaque feuille de zone avant de partir.
sheet-alert-too-narrow = seuls { $width } restent ouverts : la circulation ne peut pas passer le chantier. La personne habilitée décide comment la guider.
sheet-alert-closed = rien ne reste ouvert : la circulation ne peut pas passer le chantier. La personne habilitée décide comment la guider.
sheet-alert-people = { $needed } personnes nécessaires, signaleurs compris ; l’équipe en a { $people }.
sheet-alert-signs = { $needed } panneaux nécessaires, le dépôt en a { $have }. Ne pas commencer sans eux.
sheet-alert-cones = { $needed } cônes nécessaires, le dépôt en a { $have }. Ne pas commencer sans eux.
sheet-alert-overload = Voyage { $trip } : { $most } à bord au plus, le camion peut porter { $allowed }.

sheet-job-pack = Dossier de travail
sheet-nothing-no-hole = Rien à faire aujourd’hui : aucun nid-de-poule utilisable n’a été signalé.
sheet-nothing-none-fits = { $count ->
    [one] Rien à faire aujourd’hui : le seul nid-de-poule signalé n’entre pas dans la tournée de ce jour.
   *[other] Rien à faire aujourd’hui : aucun des { $count } nids-de-poule signalés n’entre dans la tournée de ce jour.
}
sheet-no-daylight = pas de jour
sheet-fact-stops = arrêts
sheet-fact-holes = nids-de-poule
sheet-fact-leave-depot = départ du dépôt
sheet-fact-go-on-at = reprise à
sheet-fact-back = retour
sheet-fact-back-tipped = retour, déblais vidés
sheet-fact-back-by = 9 jours sur 10, retour avant
sheet-fact-shift = poste
sheet-fact-sun = lever, coucher du soleil
sheet-fact-driving = conduite
sheet-fact-crew = équipe
sheet-fact-truck = camion
sheet-fact-plant = matériel nécessaire
sheet-fact-part-of = partie de
sheet-part-of-work-plan = un plan de travaux
sheet-fact-left-out-overdue = laissés bien qu’en retard
sheet-sprayer = rampe d’épandage
sheet-pouring-pot = seau verseur
sheet-head-from = de
sheet-head-to = à
sheet-head-stop = arrêt
sheet-head-what = quoi
sheet-head-drive = trajet
sheet-to-yard = vers { $yard }
sheet-back-to-depot = retour au dépôt
sheet-load-for-trip = charger pour le voyage { $trip }
sheet-wait = attente
sheet-break = pause
sheet-tip-spoil = vider les déblais
sheet-times-median = Les heures comptent avec la médiane de chaque réparation (P50) : autant de jours finissent plus tard que plus tôt.
sheet-look-note = Une vérification est un court arrêt hors de la chaussée : personne ne marche sur la route et, là où il n’y a pas de place pour s’arrêter, on continue. La règle locale décide.
sheet-look-at = vérifier la réparation sur { $road }
sheet-from-the-shoulder = depuis l’accotement, { $minutes }
sheet-looks-on-the-way = Vérifications de réparations précédentes en chemin
sheet-head-earlier-repair = réparation précédente
sheet-head-found = constaté
sheet-look-holds = tient
sheet-look-worn = usée
sheet-look-failed = défaillante
sheet-look-not-made = non vérifiée
sheet-look-mended = réparé le { $day }
sheet-look-after-opening = { $days } jours après l’ouverture à la circulation
sheet-look-found-worn = trouvée usée, vérifiée de nouveau après { $days } jours
sheet-look-mark-note = Côté : dans le sens propre de la route, celui des abscisses croissantes. Usée : gravillons perdus, liant remonté, bords ouverts. Défaillante, ou un trou à côté : à signaler comme nouveau nid-de-poule. Non vérifiée : pas d’endroit sûr pour s’arrêter, ou pas le temps.
sheet-learnt-more = Encore { $count } dans plan.json.
sheet-from-the-record = D’après le registre :
sheet-alt-district-map = Carte des routes du district avec le dépôt
sheet-alt-round-map = Carte de la tournée : routes, chemin suivi, arrêts numérotés

sheet-trip = { $count ->
    [one] Voyage { $trip } : arrêt { $first }
   *[other] Voyage { $trip } : arrêts { $first } à { $last }
}
sheet-trip-empty = Voyage { $trip }
sheet-on-truck = { $count ->
    [one] Nécessaire sur le camion : arrêt { $first }
   *[other] Nécessaire sur le camion : arrêts { $first } à { $last }
}
sheet-on-truck-empty = Nécessaire sur le camion
sheet-enough = suffit : grave { $base }, eau { $water }, liant { $binder }, gravillons { $stone }
sheet-enough-of-each = suffit pour chacun : { $chance }
sheet-enough-and-more-at = { $enough } ; encore à { $places }
sheet-mass-of = { $mass } sur { $payload }
sheet-mass-and-more = { $mass }, et le reste à bord
sheet-greatest-mass = masse maximale à bord
sheet-spoil-back = déblais au retour { $volume }, { $mass } ; avec la grave, au plus
sheet-head-compartment = bac ou cuve
sheet-head-load = à charger
sheet-head-volume = volume
sheet-head-mass = masse
sheet-head-room = place
sheet-head-how-full = remplissage
sheet-head-done = fait
sheet-head-on-road = sur la route
sheet-head-needed = il faut
sheet-head-have = on a
sheet-head-out = sorti
sheet-short = manque { $count }
sheet-head-whole-day = toute la journée
sheet-head-as-reported = comme signalé
sheet-total-base = grave, en vrac
sheet-total-base-stock = grave, du stock
sheet-total-water = eau à ajouter
sheet-total-binder = liant, chaud
sheet-total-stone = gravillons
sheet-total-spoil = déblais, en vrac
sheet-total-work = travail aux nids-de-poule
sheet-day-by-hand = La journée à la main :
sheet-suffices = La chance que rien ne manque de la journée est de { $chance }.
sheet-p10-p50-p90 = P10, P50, P90 : de la somme du jour, un, cinq, neuf cas sur dix sont en dessous.

sheet-cautions = Précautions
sheet-caution-traffic = Circulation :
sheet-caution-traffic-text = ne jamais travailler hors de l’espace fermé ; vêtements haute visibilité ; une échappatoire ; arrêter si un élément manque.
sheet-caution-hot-binder = Liant chaud :
sheet-caution-hot-binder-text = il brûle : gants, écran facial, manches longues ; peau brûlée sous l’eau fraîche, voir un médecin, ne pas arracher le liant.
sheet-caution-cutback = Vapeurs et feu :
sheet-caution-cutback-text = le bitume fluidifié dégage du solvant : ni flamme, ni tabac, ni pompage près d’une ignition ; extincteur à portée.
sheet-caution-emulsion = Émulsion :
sheet-caution-emulsion-text = ne pas la faire bouillir ni geler, jamais dans une cuve avec un autre liant ; yeux et peau couverts.
sheet-caution-dust = Poussière de silice :
sheet-caution-dust-text = découper à l’eau ou avec un masque prévu pour cela.
sheet-caution-services = Réseaux enterrés :
sheet-caution-services-text = demander et marquer avant de creuser ; en cas de doute, arrêter.
sheet-caution-vibration = Vibrations, bruit :
sheet-caution-vibration-text = se relayer au rouleau, à la plaque et au marteau ; protections auditives.
sheet-caution-lifting = Charges :
sheet-caution-lifting-text = deux personnes ou une machine pour ce qui est lourd ; le dos droit.
sheet-caution-weather = Chaleur et froid :
sheet-caution-weather-text = eau, ombre, pauses ; veiller les uns sur les autres.
sheet-caution-drains = Avaloirs et eau :
sheet-caution-drains-text = couvrir les entrées ; ni liant, ni déblais, ni eau de lavage dans les avaloirs.
sheet-cautions-usual = Ce sont les précautions habituelles, pas toutes. Les codes locaux, les fiches de sécurité et les personnes formées et habilitées passent d’abord.
sheet-cautions-today = Précautions pour les matériaux et le matériel du jour
sheet-proposal = Le balisage est une proposition.
sheet-proposal-decides = Le code local de signalisation et la personne habilitée selon lui décident.
sheet-sign-crew-leader = chef d’équipe
sheet-sign-authorised = personne habilitée pour la signalisation
sheet-sign-date-time = date, heure

sheet-left-out = Laissés :
sheet-input = Données :
sheet-details-behind = Détails derrière cette feuille.
sheet-left-out-of-work-plan = Ce dossier est une tournée d’un plan de travaux ; ce qu’aucune tournée ne fait est dans son work-plan.json.
sheet-left-out-none = Tous les nids-de-poule utilisables sont dans ce dossier.
sheet-left-out-summary = { $count ->
    [one] { $count } nid-de-poule hors de ce dossier
   *[other] { $count } nids-de-poule hors de ce dossier
}, { $overdue ->
    [0] aucun en retard
   *[other] { $overdue } en retard
} : { $reasons }.
sheet-left-out-less-urgent = moins pressants que ce qui remplit la journée
sheet-left-out-not-worth = ne valent pas le temps qu’ils prennent
sheet-left-out-no-window = aucune plage du jour assez longue
sheet-left-out-exceeds-shift = plus longs que le poste
sheet-left-out-exceeds-truck = plus que le camion ne porte
sheet-left-out-unreachable = aucune route n’y mène aller et retour
sheet-left-out-not-a-patch = pas de simples réparations : demander à l’ingénieur
sheet-left-out-no-crew = aucune équipe n’a le matériel
sheet-left-out-as-asked = laissés à la demande
sheet-left-out-off-roads = hors des routes de ce district
sheet-left-out-other = { $count } pour d’autres raisons
sheet-reason-of-its-own = chacun pour une raison propre
sheet-more-left-out = et { $count } de plus, moins pressants ; tous dans plan.json
sheet-more-problems = et { $count } de plus, tous dans plan.json
sheet-and-more = et { $count } de plus
sheet-input-of-work-plan = Ce qui n’allait pas dans les données y est aussi.
sheet-input-fine = Rien n’était faux dans les données.
sheet-input-summary = { $count ->
    [one] { $count } problème dans les données
   *[other] { $count } problèmes dans les données
}, { $refused ->
    [0] aucun refus
    [one] 1 ligne refusée
   *[other] { $refused } lignes refusées
}.
sheet-signs-to-take = Panneaux à emporter, chacun avec son pied
sheet-not-a-patch = Pas une simple réparation : demander à l’ingénieur
sheet-not-in-pack = Hors de ce dossier, le plus pressant d’abord (jour en gras : en retard ; jour avec ? : peut empirer dès lors)
sheet-what-was-wrong = Ce qui n’allait pas dans les données
sheet-head-hole = trou
sheet-head-road = route
sheet-head-severity = gravité
sheet-head-mend-by = délai
sheet-head-work = travail
sheet-head-why-no-patch = où, pourquoi pas une réparation simple, ce qu’elle demanderait (P90)
sheet-head-where = où
sheet-head-record = ligne
sheet-head-wrong = ce qui était faux ; ce qui serait juste
sheet-engineer-figures = découpe { $area }, jusqu’à { $depth } de profondeur ; grave { $base }, déblais { $spoil }, jusqu’à { $work } de travail

sheet-fact-latitude = latitude et longitude
sheet-fact-work-space = zone de travaux au PK
sheet-fact-heads = la voie va vers
sheet-fact-speed = vitesse limite
sheet-fact-lanes = voies
sheet-lanes-sealed = { $lanes }, revêtue { $width }
sheet-fact-keeps = on roule à
sheet-fact-left-open = reste ouvert
sheet-fact-duration-class = classe de durée
sheet-fact-set-up = pose, dépose
sheet-fact-busiest-hour = heure de pointe
sheet-fact-shared = partagée
sheet-chainage-rule = Le PK compte depuis { $from } vers { $towards }.
sheet-before-place = { $distance } avant { $place }
sheet-past-place = { $distance } après { $place }
sheet-before-place-range = { $near } à { $far } avant { $place }
sheet-past-place-range = { $near } à { $far } après { $place }
sheet-queue-clears = { $flow } véhicules/h : arrêt { $stop }, { $count } à { $vehicles } attendent, file de { $back }
sheet-queue-none = { $flow } véhicules/h, il en passe { $most } véhicules/h : aucune file
sheet-queue-grows = { $flow } véhicules/h, il en passe { $most } véhicules/h : elle croît
sheet-queue-unknown = comptage inconnu, bon jusqu’à { $most } véhicules/h
sheet-sharing-saves = { $holes }, une zone : gagne { $saved }
sheet-sharing-saves-and-takes = { $holes }, une zone : gagne { $saved }, prend { $more } de plus
sheet-sharing-takes = { $holes }, une zone : prend { $more } de plus
sheet-sharing-as-long = { $holes }, une zone : aussi long que séparément
sheet-layout-source = Balisage : { $source }.
sheet-placing = Pose
sheet-removing = Dépose
sheet-in-this-order = , dans cet ordre
sheet-right-left = droite, gauche : vues du conducteur.
sheet-head-number = n°
sheet-head-device = élément
sheet-head-for = pour
sheet-head-from-work = depuis le chantier
sheet-head-side = côté, de l’axe
sheet-head-step = étape
sheet-head-in = rentré
sheet-head-count-back = recompte
sheet-head-list = liste
sheet-traffic-our-lane = notre voie
sheet-traffic-oncoming = en face
sheet-traffic-joining = débouche
sheet-on-side-road = sur { $road }, à { $distance } de son carrefour au { $junction }
sheet-spot-before = { $distance } avant
sheet-spot-past = { $distance } après
sheet-spot-inside = { $distance } dedans
sheet-spot-at-start = à son début
sheet-spot-at-end = à sa fin
sheet-spot-its-start = son début
sheet-spot-its-end = sa fin
sheet-spot-whole = sur toute sa longueur
sheet-spot-between = de { $from } à { $to }
sheet-every = tous les { $distance }
sheet-apart = espacés de { $range }
sheet-side-by-side = côte à côte
sheet-drive = rouler { $distance }
sheet-walk = marcher { $distance }
sheet-turn = { $count ->
    [one] demi-tour
   *[other] { $count } demi-tours
}
sheet-way-time = { $way } : { $time }
sheet-cuts-in-zone = Découpes dans cette zone
sheet-remarks-behind = { $count ->
    [one] { $count } remarque à la page suivante : la lire avant de rien sortir.
   *[other] { $count } remarques à la page suivante : les lire avant de rien sortir.
}
sheet-remarks-on-zone = Remarques sur la zone de travaux
sheet-alt-place-map = Carte des environs avec le lieu des travaux
sheet-alt-zone = Plan de la zone de travaux avec tous les éléments et distances

sheet-names-and-more = { $names } et { $count } de plus
sheet-size-corners = { $size }, { $corners } angles
sheet-size-deep = { $size }, profond { $depth }
sheet-outline = contour
sheet-fact-chainage = PK
sheet-fact-place = lieu
sheet-fact-reported = signalé
sheet-fact-mend-by = délai
sheet-fact-work = travail
sheet-fact-diagonals = diagonales
sheet-fact-severity = gravité
sheet-fact-compact-with = compacter avec
sheet-place-lane = voie
sheet-place-wheel-path = bande de roulement
sheet-place-edge = bord
sheet-place-shoulder = accotement
sheet-place-centre = axe
sheet-holes-of-one-cut = { $count } nids-de-poule dans une découpe : { $sizes }
sheet-so-long = { $range } de long
sheet-so-wide = { $range } de large
sheet-so-deep = { $range } de profondeur
sheet-reported-often = { $name } signalé { $count } fois : { $reports }
sheet-reported-often-since = { $name } signalé { $count } fois, d’abord le { $first } : { $reports }
sheet-reports-more = { $count } de plus dans plan.json
sheet-by-hand = À la main :
sheet-head-quantity = quantité
sheet-head-p10-to-p90 = P10 à P90
sheet-head-how = mode de calcul
sheet-head-how-metric = mode de calcul, en métrique
sheet-quantity-cut-area = découpe, surface
sheet-quantity-cut-length = découpe, longueur à scier
sheet-quantity-depth = profondeur de la fouille
sheet-quantity-layers = couches
sheet-quantity-layer-compacted = une couche, compactée
sheet-quantity-layer-loose = une couche, en vrac
sheet-quantity-base-compacted = grave, compactée, bombée
sheet-quantity-base-loose = grave, en vrac à poser
sheet-quantity-base-dry = grave, masse sèche
sheet-quantity-base-stock = grave, du stock
sheet-quantity-water = eau à ajouter
sheet-quantity-water-to-dry = eau à sécher d’abord
sheet-quantity-passes = passes
sheet-quantity-rolling = compactage, toutes couches
sheet-quantity-seal-area = nouvel enduit, surface
sheet-quantity-binder-rate = dosage du liant
sheet-quantity-binder-hot = liant, chaud
sheet-quantity-stone-rate = dosage des gravillons
sheet-quantity-stone = gravillons
sheet-quantity-stone-loose = gravillons, en vrac
sheet-quantity-spoil-loose = déblais, en vrac
sheet-quantity-spoil-mass = déblais, masse
sheet-passes-how = { $lanes ->
    [one] chaque couche, { $lanes } bande de large ; { $compactor }
   *[other] chaque couche, { $lanes } bandes de large ; { $compactor }
}
sheet-container = { $count } × { $name } de { $volume }
sheet-containers = { $containers } ; reste { $rest }
sheet-compactor-last-layer = { $machine }, dernière couche { $last }
sheet-head-stage = étape
sheet-head-time = temps
sheet-head-look = regarder, cocher ; noter ce qui a été mesuré
sheet-stage-traffic-control-out = poser le balisage
sheet-stage-mark-out = marquer
sheet-stage-cut-out = découper
sheet-stage-fill = remblayer
sheet-stage-compact = compacter
sheet-stage-seal = enduire
sheet-stage-clean-up = nettoyer
sheet-stage-traffic-control-in = rentrer le balisage
sheet-check-stands = en place comme sur la feuille
sheet-check-driven = parcouru et regardé
sheet-check-services = réseaux marqués
sheet-check-cleaned = trou nettoyé, regardé
sheet-check-lines = lignes droites, d’équerre, dans l’enduit sain
sheet-check-outwards = du milieu vers l’extérieur
sheet-check-upright = parois droites en 4 endroits
sheet-check-bottom = fond ferme et plan
sheet-check-spoil = déblais sur le camion
sheet-check-falls-apart = en main : se défait, ajouter de l’eau
sheet-check-keeps-shape = garde sa forme
sheet-check-oozes = suinte, étaler et sécher
sheet-check-loose = { $thickness } en vrac par couche
sheet-check-compactor = avec : { $machine }
sheet-check-edges = bords épargnés par la bille
sheet-check-corners = angles d’abord, puis vers l’intérieur
sheet-check-passes = chaque couche { $passes }
sheet-check-proud = dernière couche en saillie de { $proud }
sheet-check-clean-dry = propre et sec
sheet-check-binder-at = liant à { $temperature }
sheet-check-stone = gravillons aussitôt, une couche
sheet-check-bedded = roulé jusqu’à mise en place
sheet-check-swept = balayé : route, accotement, avaloirs
sheet-check-swept-again = encore après { $first }, { $second } h
sheet-check-tools = outils et matériaux recomptés
sheet-check-reverse = ordre inverse
sheet-check-count = compte rentré = compte sorti
sheet-check-opened = ouvert { $wait } après les gravillons, { $speed } pendant { $hours } h
sheet-field-time = heure
sheet-field-long = long
sheet-field-wide = large
sheet-field-photo = photo
sheet-field-depth-found = profondeur trouvée
sheet-field-moisture = teneur en eau
sheet-field-percent = %
sheet-field-water = eau
sheet-field-layer = couche { $layer }
sheet-field-passes = passes { $layer } :
sheet-field-proud = en saillie
sheet-field-binder = liant
sheet-field-stone = gravillons
sheet-field-crown = bombement
sheet-if-deeper = Si le trou s’avère plus profond
sheet-head-depth-found = profondeur
sheet-head-layers = couches
sheet-head-base = grave
sheet-head-loose = en vrac
sheet-head-water = eau
sheet-cautions-behind = Précautions, en entier derrière la couverture :
sheet-remarks = Remarques
sheet-alt-cut = Plan de la découpe avec cotes
sheet-alt-section = Coupe avec couches
sheet-alt-pattern = Ordre de compactage, depuis les angles

# Ce qu’enseigne le registre
sheet-learnt-growth = le plan prévoit désormais de creuser { $percent } de { $more ->
    [more] plus
   *[less] moins
  }
sheet-learnt-base = le plan charge désormais { $percent } de grave en { $more ->
    [more] plus
   *[less] moins
  }
sheet-learnt-water = le plan charge désormais { $percent } d’eau en { $more ->
    [more] plus
   *[less] moins
  }
sheet-learnt-binder = le plan charge désormais { $percent } de liant en { $more ->
    [more] plus
   *[less] moins
  }
sheet-learnt-cover-stone = le plan charge désormais { $percent } de gravillons en { $more ->
    [more] plus
   *[less] moins
  }
sheet-learnt-time = le plan accorde désormais { $percent } de temps en { $more ->
    [more] plus
   *[less] moins
  }
sheet-learnt-repairs-district = { $count ->
    [one] { $count } réparation du district
   *[other] { $count } réparations du district
}
sheet-learnt-repairs-there = { $count ->
    [one] { $count } réparation à cet endroit
   *[other] { $count } réparations à cet endroit
}
sheet-learnt-repairs-crew = { $count ->
    [one] { $count } réparation de cette équipe
   *[other] { $count } réparations de cette équipe
}
sheet-learnt-took = pour { $repairs } il a fallu { $times } fois la quantité prévue
sheet-learnt-turned-out = pour { $repairs } on a creusé { $times } fois ce que prévoient les règles
sheet-learnt-time-taken = pour { $repairs } il a fallu { $times } fois le temps prévu
sheet-learnt-believed = { $median } (de { $low } à { $high })
sheet-learnt-district = { $does }, car { $took } ; pondéré avec les règles, { $believed }
sheet-learnt-road = { $does } sur { $road }, car { $took } ; pondéré avec les autres, { $believed }
sheet-learnt-crew = { $does } pour { $crew }, car { $took } ; pondéré avec les autres, { $believed }
sheet-learnt-kept = { $sentence } ; borné entre { $least } et { $most }
sheet-roads-motorway = les autoroutes
sheet-roads-trunk = les voies express
sheet-roads-primary = les routes principales
sheet-roads-secondary = les routes secondaires
sheet-roads-tertiary = les routes tertiaires
sheet-roads-unclassified = les routes non classées
sheet-roads-residential = les rues résidentielles
sheet-roads-service = les voies de service
sheet-roads-track = les chemins
sheet-roads-with-shoulder = { $roads } avec accotement
sheet-roads-without-shoulder = { $roads } sans accotement
