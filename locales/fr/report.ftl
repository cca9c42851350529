# Le rapport du mois, imprimé et en page

report-title = { $month } { $year }
report-date = { $day } { $month } { $year }
report-about = Réparation des routes à enduit superficiel : ce qui a été fait, ce que cela a coûté, ce qui reste et ce qui dure.
report-goes-on = Le mois continue : compte ce qui a été dit jusqu’au { $day }.
report-footer = lengthsman { $version }, établi d’après le registre jusqu’à l’événement { $event }
report-all = total
report-named = { $what } : { $value }
report-price = { $amount } { $currency }
report-spread = { $middle } ({ $low }–{ $high })
report-road-not-known = route inconnue
report-road = route
report-days = { $count ->
    [one] { $count } jour
   *[other] { $count } jours
}

## What was done
report-done = Ce qui a été fait
report-repairs-opened = réparations rendues à la circulation
report-area-cut = surface découpée
report-area-of-repairs = { $area } pour { $count } réparations
report-month-before = le mois précédent
report-repairs-counted = { $count ->
    [one] { $count } réparation
   *[other] { $count } réparations
}
report-new-holes = nouveaux trous signalés
report-by-each-road = Par route
report-more-roads = { $count ->
    [one] { $count } autre route
   *[other] { $count } autres routes
}
report-repairs = réparations
report-cost-of-month = coût du mois
report-told-and-mended = Nids-de-poule signalés et réparés, mois par mois
report-told = signalés
report-mended = réparés
report-told-and-mended-in = { $month } : { $told } signalés, { $mended } réparés

## What it cost
report-cost = Ce que cela a coûté
report-for = pour
report-money = montant
report-share = part
report-per-repair = par réparation
report-per-m2 = par m² découpé
report-per-ft2 = par ft² découpé
report-not-every-area = surfaces pas toutes dites
report-planned-and-actual = Prévu et réel, pour les réparations qui disent les deux
report-part-of-planned = Le réel en part du prévu
report-planned = prévu
report-actual = réel
report-more = en plus
report-of-planned = { $what } : { $share } du prévu
report-part-labour = main-d’œuvre
report-part-plant = engins
report-part-base = grave
report-part-cover-stone = gravillons
report-part-binder = liant
report-part-water = eau
report-part-other-material = autre matériau
report-part-wasted = jeté
report-part-count-difference = écart d’inventaire
report-part-price-difference = écart de prix
report-base-loose = grave, foisonnée
report-time-at-zone = temps à la zone

## Stock
report-stock = Stock
report-nothing-held = Rien n’a été gardé ni déplacé.
report-used-beyond-books = { $item } : il en a été employé plus que les livres n’en connaissent ; comptez et inscrivez ce qui est arrivé.
report-item = article
report-opening = début
report-bought = acheté
report-into-repairs = en réparations
report-lost = perdu
report-closing = fin
report-worth = valeur
report-stock-spoil = déblais
report-stock-signs = panneaux
report-stock-cones = cônes
report-stock-other-devices = autres dispositifs

## Risk that is left
report-left = Le risque qui reste
report-open-holes = trous ouverts à la fin
report-past-their-day = en retard
report-severity = gravité
report-severity-counted = { $severity } : { $count }
report-none-judged = aucun jugé
report-not-judged = non jugés
report-riskiest = Les plus risqués
report-hole = trou
report-risk-points = points de risque
report-open-for = ouvert depuis
report-due = échéance
report-risk-note = Les points de risque classent les nids-de-poule et ne mesurent aucune probabilité ; aucun nombre de points ne veut dire qu’un trou est sans danger. Ceux qui ne sont pas mesurés, ou sur aucune route entretenue, ne sont pas jugés : mesurez-les.

## What lasts
report-lasts = Ce qui dure
report-lives-known = vies de réparations connues
report-lives-failed = dont défaillantes
report-lasts-note = Le registre montre ce qui est allé ensemble, non ce qui en fut la cause : les équipes ont des routes différentes. Une différence que le hasard seul produirait n’en est pas une.
report-nothing-to-compare = Le registre ne dit encore rien qui permette de comparer les réparations.
report-by = selon
report-group = groupe
report-failed = défaillances
report-half-outlast = la moitié dépasse
report-mean-life = vie moyenne dans la fenêtre
report-mean-within = { $mean } ± { $error } sur { $days }
report-too-few = trop peu pour le dire
report-not-reached = pas atteint
report-still-whole-by = Réparations encore entières, selon : { $by }
report-still-whole = encore entières
report-at-risk = encore suivies
report-days-unit = jours
report-curve-in-words = { $group } : { $lives } vies, { $failures } défaillances, la moitié dépasse { $median }
report-differ = Les groupes diffèrent : le hasard seul les écarterait autant dans { $cases } cas sur 100.
report-pairs-differ = Deux à deux diffèrent : { $pairs }.
report-pair = { $first } et { $second }
report-no-difference = Aucune différence n’apparaît : le hasard seul écarterait autant les groupes dans { $cases } cas sur 100. Cela ne prouve pas qu’ils soient pareils.
report-groups-too-few = Si les groupes diffèrent : trop peu de défaillances pour le dire.
report-less-than = moins de { $number }
report-by-crew = équipe
report-by-material = matériau de la grave
report-by-binder = liant
report-by-layers = nombre de couches
report-by-moisture = grave dans la main
report-by-wetness = eau dans le trou
report-by-surface = surface à l’enduisage
report-by-weather = temps lors de l’enduit
report-by-temperature = température de l’air
report-by-month = mois
report-by-season = saison
report-by-road = route
report-by-road-class = classe de route
report-by-traffic = trafic
report-by-drainage = drainage
report-by-rules = respect des règles
report-group-not-known = inconnu
report-group-dry-surface = surface sèche
report-group-wet-surface = surface mouillée
report-group-by-rules = selon les règles
report-group-not-by-rules = hors des règles
report-group-falls-apart = s’effrite
report-group-keeps-shape = garde sa forme
report-group-oozes = suinte
report-group-layers = { $count ->
    [one] { $count } couche
   *[other] { $count } couches
}
report-group-traffic-under = moins de { $most } par jour
report-group-traffic-between = { $from } à { $to } par jour
report-group-traffic-from = { $least } par jour et plus
report-group-ditch-works = le fossé fonctionne
report-group-ditch-blocked = fossé bouché
report-group-kerb-and-gully = bordure et avaloir
report-group-gully-blocked = avaloir bouché
report-group-high-verge = accotement plus haut que la route
report-group-no-drainage = aucun drainage
report-group-standing-water = eau stagnante à côté
report-group-weather-dry = temps sec
report-group-weather-damp = rosée, brouillard ou bruine
report-group-weather-rain = pluie à moins d’un jour
report-group-weather-frost = gel
report-group-temperature-under = moins de { $most }
report-group-temperature-between = de { $from } à { $to }
report-group-temperature-from = { $least } et plus
report-class-motorway = autoroute
report-class-trunk = voie express
report-class-primary = primaire
report-class-secondary = secondaire
report-class-tertiary = tertiaire
report-class-unclassified = non classée
report-class-residential = rue résidentielle
report-class-service = voie de service
report-class-track = chemin

## Where patching nears its end
report-stop = Là où le rebouchage touche à sa fin
report-stretches = tronçons examinés
report-past-patching = rebouchage dépassé
report-repair-price = prix d’une réparation
report-years-looked-at = années considérées
report-engineer-decides = **L’ingénieur routier décide.** Les tronçons où renouveler maintenant se compare le mieux à continuer de reboucher, dix au plus ; là où le rebouchage est dépassé, renouveler maintenant coûte moins dans neuf avenirs sur dix. Mètres ou pieds se comptent le long de la section du fichier des routes.
report-stop-caption = Coûts sur { $years } ans à la valeur d’aujourd’hui, en milliers de { $currency } : moyenne et, entre parenthèses, de ce qu’un avenir sur dix n’atteint pas à ce que neuf ne dépassent pas. Moins cher : dans cette part des avenirs.
report-m-along = m de la section
report-ft-along = ft de la section
report-holes-a-year = trous par an
report-patched-on = reboucher encore
report-renewed-now = renouveler maintenant
report-renewed-by = renouvellement
report-even-in-year = à égalité l’année
report-renewing-cheaper = renouveler moins cher
report-later = plus tard
report-renewal-reseal = nouvel enduit
report-renewal-new-base = nouvelle grave et enduit
report-stop-note = Le modèle connaît trous, prix et vies de réparations. Il ne sait pas ce qu’il y a sous la surface, ni l’eau qui vient des côtés, le trafic à venir, les travaux d’autres, ou ce qu’une route barrée coûte à ses usagers. Les prix et vies des renouvellements sont le réglage du service. Le dimensionnement des chaussées revient à un ingénieur habilité.
report-no-roads = Aucune route n’est connue : rien ne peut être dit de ses tronçons.
report-too-short = Le registre couvre moins d’un quart d’année : trop peu pour dire combien de trous une année apporte.
report-no-cost = Aucune réparation des douze derniers mois n’a de coût dans les livres : continuer de reboucher n’a pas de prix.
report-no-hole = Aucun nouveau trou du registre n’est sur une route entretenue.
report-no-law = Les règles ne donnent aucune loi de vie des réparations utilisable.
report-unworkable = Avec les réglages des règles, le calcul n’est pas possible.

## How the figures were worked out
report-workings = Comment les chiffres ont été calculés, et ce qu’ils ne peuvent dire
report-figure = chiffre
report-how = comment
report-where-from = d’où
report-source-record = le registre
report-source-books = les livres
report-source-handbook = manuel, { $page }
report-source-books-and-handbook = les livres ; manuel, { $page }
report-source-distance = manuel, { $page } ; distance : { $source }
report-source-arrival = manuel, { $page } ; les trous qui sont la défaillance d’une réparation ne sont pas nouveaux
report-figure-repairs = Réparations, surface
report-how-repairs = réparations sur lesquelles on a roulé pour la première fois dans le mois (enduites, là où personne n’a dit qu’elles étaient ouvertes) ; surface telle que découpée, autant que les équipes l’ont dite
report-figure-cost = Coût
report-how-cost = temps inscrit aux prix du district, matériau au prix moyen de ce qui était en stock à l’emploi ; ce qui est inscrit sur une tournée est partagé entre ses réparations
report-figure-stock = Stock
report-how-stock = début + acheté − en réparations − perdu = fin, sur dépôts, camions et zones ; perdu est ce qui fut jeté moins ce que les inventaires ont trouvé, et peut contenir un écart de prix
report-figure-planned = Prévu et réel
report-how-planned = sommes sur les réparations du mois dont les deux sont dits ; prévu est le dernier plan de chacune
report-figure-risk = Points de risque, gravité, échéance
report-how-risk = tel que le trou a été mesuré en dernier, jugé au dernier jour du rapport
report-figure-lives = Vies des réparations
report-how-lives = de l’ouverture jusqu’à ce que quelqu’un dise ou voie la défaillance, ou qu’un nouveau trou soit vu à moins de { $distance } du même côté ; sinon entière jusqu’au { $day }
report-figure-lasts = Ce qui dure
report-how-lasts = courbes produit-limite, bandes à { $confidence }, test du log-rank ; moins de { $failures } défaillances sont trop peu pour le dire
report-figure-stop-price = Fin du rebouchage : prix d’une réparation
report-how-stop-price = tous les coûts des douze derniers mois, { $cost }, sur { $repairs } réparations = { $price }
report-figure-stop-holes = Fin du rebouchage : nouveaux trous par an
report-how-stop-holes = { $holes } nouveaux trous en { $years } ans sur les routes entretenues, { $length } km·an : { $rate } par kilomètre et an ; { $drawn }
report-how-stop-anew = { "" } ; là où une route a reçu une nouvelle surface, trous et temps comptent à partir de ce jour
report-not-drawn = les tronçons ne diffèrent pas plus que par hasard, chacun a donc le taux du district
report-drawn-by = le compte de chaque tronçon y est ramené comme si { $holes } trous attendus avaient été vus ailleurs
report-figure-stop-lives = Fin du rebouchage : vies des réparations
report-how-law-of-lives = loi de Weibull ajustée à { $lives } vies avec { $failures } défaillances : échelle { $scale } ans, forme { $shape }
report-how-law-of-rules = trop peu de défaillances pour le dire ; loi de Weibull des règles : échelle { $scale } ans, forme { $shape } ({ $source })
report-figure-stop-costs = Fin du rebouchage : coûts et année d’égalité
report-how-stop-costs = { $futures } avenirs de { $years } ans à { $interest } d’intérêt ; les nouveaux trous augmentent de { $growth } par an ; { $renewals }
report-renewal-in-words = { $renewal } { $price } par m², { $left } des nouveaux trous restent, amorti en { $years } ans ({ $source })
report-limit-not-told = Ce que personne n’a dit n’est ni dans le registre ni dans ce rapport. Ce qui est dit plus tard change le rapport d’un mois passé.
report-limit-sizes = Les tailles des trous sont les dernières dites quand le rapport a été fait, non celles du dernier jour du mois.
report-limit-not-judged = { $count ->
    [one] { $count } trou ouvert n’est pas jugé.
   *[other] { $count } trous ouverts ne sont pas jugés.
}
report-limit-no-place = Aucune réparation n’est sur une route connue : d’aucun nouveau trou on n’a pu dire qu’il est la défaillance d’une réparation.
report-limit-resurfaced-nowhere = { $count ->
    [one] { $count } nouvelle surface signalée n’est sur aucune route connue : les réparations qui sont dessous comptent comme encore suivies.
   *[other] { $count } nouvelles surfaces signalées ne sont sur aucune route connue : les réparations qui sont dessous comptent comme encore suivies.
}
report-limit-findings = { $count ->
    [one] Les livres ont { $count } remarque que quelqu’un doit examiner ; elle peut changer stock et coût.
   *[other] Les livres ont { $count } remarques que quelqu’un doit examiner ; elles peuvent changer stock et coût.
}
report-budget-caption = Ce que laisse l’argent des renouvellements, s’il va d’abord où il évite le plus de trous ; milliers de { $currency }
report-budget-across = argent pour renouvellements, milliers
report-budget-up = trous à venir en { $years } ans, réparations défaillantes comprises
