# Le téléphone de l'équipe.
crew-nav = Parties de l'application de l'équipe
crew-nav-round = Tournée
crew-nav-new-hole = Nouveau nid-de-poule
crew-nav-nearby = Revoir
crew-nav-queue = File
crew-back = Retour
crew-nothing-here = Il n'y a rien ici.
crew-today = Aujourd'hui
crew-yes = Oui
crew-no = Non
crew-done = fait
crew-note = Remarque
crew-less = { $what } : moins
crew-more = { $what } : plus
crew-larger = { $what } : plus grand
crew-smaller = { $what } : plus petit
crew-minutes = { $n } min
crew-planned-is = Prévu : { $value }
crew-spread = (8 sur 10 : de { $low } à { $high })
crew-install-words = Mettez l'application sur l'écran d'accueil : elle s'ouvre alors sans réseau, comme une autre.
crew-install = Installer
crew-not-now = Pas maintenant

# what is queued
crew-queue = Ce qui a été dit
crew-badge-sent = Tout envoyé
crew-badge-queued = { $count } en attente
crew-badge-trouble-queued = { $trouble }, { $count } en attente
crew-badge-refused = { $count } refusé(s)
crew-queue-sum = En attente : { $waiting }. Photos en attente : { $photos }. Refusés : { $refused }.
crew-queue-last = À jour avec le bureau à { $at }.
crew-queue-empty = Rien n'a encore été dit sur ce téléphone.
crew-sync-now = Envoyer et recevoir maintenant
crew-sync-running = Envoi et réception
crew-told-waiting = En attente
crew-told-sent = Envoyé
crew-told-refused = Refusé
crew-refused-why = Le serveur dit :
crew-trouble-says = Message :
crew-put-right = Corriger
crew-tell-again = Dire à nouveau
crew-drop = Abandonner
crew-drop-sure = Oui, abandonner pour de bon
crew-withdraw = C'était une erreur
crew-withdraw-sure = Oui, retirer
crew-withdrawn = Retiré
crew-sent-count = Envoyés : { $count }
crew-photos = Photos
crew-photo = Prendre une photo
crew-photo-of = Photo : { $note }
crew-photo-no-room = Il n'y a plus de place pour la photo sur ce téléphone. Effacez autre chose et reprenez-la.
crew-photos-kept = { $count ->
    [one] { $count } photo gardée
   *[other] { $count } photos gardées
  }
crew-kind-hole-reported = Nouveau nid-de-poule
crew-kind-hole-measured = Nid-de-poule mesuré
crew-kind-zone-opened = Zone ouverte
crew-kind-zone-closed = Zone fermée
crew-kind-hole-cut = Découpé
crew-kind-layer-placed = Couche posée
crew-kind-sealed = Enduit
crew-kind-opened-to-traffic = Ouvert à la circulation
crew-kind-inspected = Réparation revue
crew-kind-failed = Réparation ratée
crew-kind-stock-moved = Déblais sur le camion
crew-kind-stock-counted = Stock compté
crew-kind-time-booked = Temps noté
crew-kind-photo-taken = Photo
crew-kind-corrected = Correction
crew-kind-signed = Signé

# the round
crew-which = Quelle équipe ?
crew-no-rounds = Ce téléphone ne connaît aucune tournée prévue pour l'équipe. Avec du réseau, il regarde à nouveau tout seul.
crew-no-files = Les dessins et listes de ce jour ne sont pas sur le téléphone. Ce que contient le registre est montré ; avec du réseau, le reste vient tout seul si le bureau l'a fait.
crew-next-site = Chantier { $n } sur { $of }
crew-day-done = Tous les chantiers de ce jour sont faits.
crew-sites = Chantiers
crew-sites-count = { $count ->
    [one] { $count } chantier
   *[other] { $count } chantiers
  }
crew-holes-count = { $count ->
    [one] { $count } nid-de-poule
   *[other] { $count } nids-de-poule
  }
crew-devices-count = { $count ->
    [one] { $count } dispositif
   *[other] { $count } dispositifs
  }
crew-layers-count = { $count ->
    [one] { $count } couche
   *[other] { $count } couches
  }
crew-drive = Route { $way }, { $time } ; départ à { $from }
crew-other-days = Autres jours
crew-daylight = Lever du soleil { $sunrise }, coucher { $sunset }
crew-sketch = Le trajet du jour avec ses chantiers
crew-site-planned = à faire
crew-site-open = en cours
crew-site-mended = panneaux encore posés
crew-site-done = fait
crew-load = Chargement
crew-trip = Trajet { $n }
crew-suffices = Chance que cela suffise : { $chance }
crew-load-devices = { $signs } panneaux, { $cones } cônes
crew-load-planned-only = Comme prévu pour les nids-de-poule, sans marge.
crew-nearest = { $what } : davantage à { $place }, à { $time }
crew-nearest-short = { $what } : davantage à { $place }
crew-changed = Le plan a changé
crew-changed-seen = Vu
crew-change-added = Nouveau : { $road }
crew-change-removed = Retiré : { $road }
crew-change-moved = { $road } est maintenant le { $day }
crew-change-amounts = { $road } : autres quantités
crew-change-order = L'ordre des chantiers est différent

# a site
crew-site = Chantier
crew-site-gone = Ceci n'est plus dans les tournées de l'équipe.
crew-where = Où
crew-chainage = À { $way } de { $from }, vers { $towards }
crew-windows = La circulation peut être gênée de
crew-zone = Zone de travaux
crew-zone-none = Aucun plan de balisage n'a été prévu.
crew-zone-proposal = Le plan de balisage est une proposition. Le règlement local de signalisation et la personne habilitée décident.
crew-zone-opened-by = Ouverte par { $who } à { $at } ; dispositifs posés : { $count }
crew-zone-closed-by = Fermée par { $who } à { $at } ; dispositifs repris : { $count }
crew-zone-not-open = La zone n'est pas ouverte. Personne sur la voie avant que les panneaux soient posés.
crew-remarks = Remarques sur le balisage
crew-repairs = Nids-de-poule
crew-hole-n = Nid-de-poule { $n }
crew-next-hole = Nid-de-poule suivant
crew-next-stop = Chantier suivant
crew-to-site = Au chantier
crew-drawing-place = Où c'est
crew-drawing-zone = Zone de travaux
crew-drawing-cut = Découpe
crew-drawing-section = Coupe
crew-drawing-pattern = Ordre des passes

# devices
crew-devices = Dispositifs
crew-devices-out = Poser les dispositifs
crew-devices-back = Reprendre les dispositifs
crew-turn-out = Poser
crew-turn-back = Reprendre
crew-caution-out = Circulation en cours. Vêtements à haute visibilité, face au trafic, de quoi s'écarter. S'il manque un dispositif, on arrête.
crew-caution-back = Circulation en cours. Dans l'ordre inverse de la pose : ce qui vous protège rentre en dernier.
crew-count-out = Posés : { $n } sur { $of }
crew-count-back = Repris : { $n } sur { $of }
crew-step-opposing-advance = Panneaux d'approche, sens opposé
crew-step-advance = Panneaux d'approche, notre voie
crew-step-joining = Panneaux sur les routes qui débouchent
crew-step-joining-station = Agents de circulation sur les routes qui débouchent
crew-step-opposing-station = Agent de circulation, sens opposé
crew-step-station = Agent de circulation, notre voie
crew-step-lane = La voie, dans le sens du trafic
crew-step-end-of-opposing = Panneau de fin, sens opposé
crew-step-end-of-work = Panneau de fin, notre voie
crew-step-to-the-work = Vers le chantier
crew-drive-on = rouler { $way }
crew-walk = marcher { $way }
crew-turn-round = faire demi-tour
crew-before-work = { $way } avant les travaux
crew-at-work = au droit des travaux
crew-past-work = { $way } après les travaux
crew-our-lane = notre voie
crew-oncoming = sens opposé
crew-put-out = Posé : { $what }
crew-taken-in = Repris : { $what }
crew-devices-planned = Dispositifs prévus : { $count }
crew-counted-out = Dispositifs posés
crew-counted-back = Dispositifs repris
crew-went-out = Ont été posés : { $count }
crew-agreed = La personne habilitée a parcouru la zone et est d'accord
crew-agreed-hint = Sans cela, la zone n'est pas ouverte.
crew-not-all-out = Non cochés : { $count }
crew-open-zone = La zone est ouverte
crew-open-again = Dire à nouveau l'ouverture
crew-fewer-back = { $count ->
    [one] { $count } dispositif est encore sur la route
   *[other] { $count } dispositifs sont encore sur la route
  }
crew-looked-for = Nous avons parcouru la zone et cherché
crew-close-zone = La zone est fermée
crew-close-missing = Fermer, manquants : { $count }

# a repair
crew-repair = Réparation
crew-stages = Étapes
crew-stage-traffic-out = Poser le balisage
crew-stage-mark-out = Tracer
crew-stage-cut = Découper
crew-stage-fill = Remplir
crew-stage-compact = Compacter
crew-stage-seal = Enduire
crew-stage-clean-up = Nettoyer et ouvrir
crew-stage-traffic-in = Reprendre le balisage
crew-how = Comment
crew-stage-back = Étape précédente
crew-next-stage = Étape suivante
crew-tell-cut = Dire : découpé
crew-tell-compact = Dire : couche { $n } posée
crew-tell-seal = Dire : enduit
crew-tell-clean-up = Dire : ouvert à la circulation
crew-cautions = Précautions
crew-checks = Contrôles
crew-check-agreed = Le balisage est convenu avec la personne habilitée
crew-check-seen-through = Parcouru une fois : chaque panneau se voit
crew-check-vest = Vêtements à haute visibilité portés
crew-check-cleaned = Nid-de-poule nettoyé et examiné
crew-check-sound = Lignes dans la chaussée saine, à 100 mm au plus du trou
crew-check-straight = Lignes droites, angles d'équerre
crew-check-services = Ni câbles ni conduites dessous, ou bien ils sont marqués
crew-check-centre-out = Creusé du centre vers l'extérieur
crew-check-spoil-off = Déblais sur le camion ; rien sur la chaussée, l'accotement ni près d'un avaloir
crew-check-same-kind = Même genre d'assise que la route
crew-check-spread = Réparti également, jusque dans les angles
crew-check-edges = Bords de la découpe protégés du rouleau
crew-check-corners-first = Des angles vers le centre
crew-check-proud = La dernière couche dépasse un peu la route
crew-check-swept = Surface balayée, propre
crew-check-overlap = Le liant recouvre la chaussée saine de 80 mm
crew-check-one-layer = Une seule couche de gravillons, aussitôt
crew-check-bedded = Cylindré jusqu'à ce que les gravillons tiennent bien
crew-check-swept-up = Balayé ; rien de libre sur la chaussée
crew-check-drains = Accotement et avaloirs propres
crew-check-tools = Outils et restes de matériaux recomptés
crew-check-reverse = Dispositifs repris dans l'ordre inverse
crew-check-nothing-left = Parcouru une fois : il ne reste rien
crew-cut-length = Longueur de la découpe, le long de la route
crew-cut-width = Largeur de la découpe, en travers de la route
crew-area-is = Surface : { $area }
crew-depth-planned = Profondeur prévue
crew-depths = Profondeur en plusieurs points
crew-depth-n = Profondeur { $n }
crew-depth-another = Un point de plus
crew-deeper-than-planned = Plus profond que prévu : { $deepest } au lieu de { $planned }. Voyez ce qu'il faut maintenant.
crew-bigger = C'est plus grand que prévu
crew-bottom-firm = Le fond est-il ferme ?
crew-bottom-soft = Creusez jusqu'au sol ferme ou demandez à l'ingénieur. Une réparation sur sol mou s'affaisse.
crew-sides-upright = Les côtés sont-ils droits et fermes ?
crew-wetness = À quel point est-ce mouillé dessous ?
crew-wetness-dry = sec
crew-wetness-damp = humide
crew-wetness-wet = mouillé
crew-wetness-seepage = l'eau suinte
crew-wetness-pumping = le trafic pompe l'eau
crew-water-below = L'eau vient de quelque part. Dites-le au bureau : sans drainage, la réparation ne tiendra pas.
crew-spoil = Déblais enlevés
crew-in-counts = Compter en { $plural }
crew-in-measures = Saisir la mesure
crew-layer-of = Couche { $n } sur { $of }
crew-layer-n = Couche { $n }
crew-layer-another = Une couche de plus
crew-loose-thickness = Étaler { $loose } foisonné ; il reste { $firm }
crew-moisture = Une poignée, serrée
crew-moisture-falls-apart = se défait
crew-moisture-falls-apart-do = trop sec : ajouter de l'eau
crew-moisture-keeps-shape = garde sa forme
crew-moisture-keeps-shape-do = bon
crew-moisture-oozes = suinte
crew-moisture-oozes-do = trop mouillé : étaler et laisser sécher
crew-base-used = Grave mise dans cette couche
crew-water-used = Eau ajoutée à cette couche
crew-base-whole = Grave pour tout le trou, foisonnée
crew-water-whole = Eau pour tout le trou
crew-passes-still = Passes sans vibration
crew-passes-vibrating = Passes avec vibration, ou de plaque ou pilon
crew-layer-thickness = Épaisseur compactée
crew-caution-binder = Le liant brûle : écran facial, gants, manches longues, eau fraîche à portée. Pas de flamme près des vapeurs. La fiche de sécurité décide.
crew-surface-dry = La surface est-elle sèche ?
crew-surface-wet = N'enduisez pas une surface mouillée : le liant n'y tient pas.
crew-binder = Liant, grade ou produit
crew-binder-hint = Comme écrit sur le fût.
crew-binder-used = Liant utilisé, tel que répandu
crew-binder-whole = Liant, tel que répandu
crew-stone-used = Gravillons utilisés
crew-stone-whole = Gravillons
crew-sealed-area = Surface enduite
crew-crown = Hauteur au-dessus de la route
crew-surface-temperature = Température de la surface
crew-opening-after = Première circulation pas avant { $time } après le dernier gravillon
crew-opening-from = Première circulation à { $at } (dans { $time })
crew-opening-now = Première circulation depuis { $at } : si aucun gravillon ne tourne sous une roue braquée
crew-opening-too-cold = Plus froid que le tableau du plan. Demandez avant d'enduire ou d'ouvrir.
crew-opening-row = dès { $from } : { $time }
crew-opening-slow = Au plus { $speed }/h pendant { $hours } h. La personne habilitée décide.
crew-opened-by = Ouvert à la circulation par { $who } à { $at }
crew-sign = Temps et signature
crew-time-minutes = Minutes pour cette réparation
crew-since-begun = { $n } min depuis le début sur ce téléphone
crew-people = Personnes
crew-unticked = Contrôles non cochés : { $count }
crew-sign-now = J'en réponds : { $name }
crew-signed-by = Signé par { $who }, { $at }
crew-repair-planned = prévue
crew-repair-cut-out = découpée
crew-repair-filling = remplissage
crew-repair-sealed = enduite
crew-repair-open = ouverte à la circulation
crew-repair-failed = ratée

# bigger than planned
crew-depth-now = Profondeur maintenant
crew-measure-photo = Mesurer sur une photo
crew-layers-now = { $count ->
    [one] { $count } couche de { $thickness }
   *[other] { $count } couches de { $thickness } chacune
  }
crew-material = Matériau
crew-now-needs = Il faut
crew-more-than-planned = Face au plan
crew-good-base = Grave, foisonnée
crew-good-water = Eau
crew-good-binder = Liant
crew-good-cover-stone = Gravillons
crew-good-spoil = Déblais
crew-truck-enough = Selon le plan, le camion en porte assez, si rien d'autre n'en a pris plus.
crew-truck-short = Selon le plan, il manque au camion :
crew-beyond-table = Plus profond que le tableau du plan ({ $last }). Les quantités sont en proportion de la profondeur : une estimation. Arrêtez et demandez au bureau.
crew-bigger-how = Calculé sur ce téléphone avec la ligne du plan pour { $row }, en proportion de la surface ({ $area } au lieu de { $planned }). Le bureau refait le plan.
crew-bigger-no-plan = Le tableau du plan n'est pas sur ce téléphone : couches et quantités ne peuvent pas être calculées ici. Dites les dimensions ; le bureau calcule.
crew-ask-replan = Dire et demander un nouveau plan
crew-replan-waiting = La demande est en attente ; elle part dès qu'il y a du réseau.
crew-replan-sent = Le bureau a la demande.
crew-replan-refused = La demande a été refusée. Voyez la file.

# a new hole, an older repair
crew-caution-stop = Ne vous arrêtez que là où c'est sûr. Personne sur la route sans balisage.
crew-here = Ce téléphone sait où il est à { $accuracy } près.
crew-here-looking = Recherche de la position du téléphone.
crew-here-denied = Ce téléphone n'a pas le droit de dire où il est. Permettez-le dans le navigateur ou saisissez l'endroit.
crew-here-none = Ce téléphone ne sait pas où il est. Saisissez l'endroit.
crew-here-taken = Repris du téléphone, à { $accuracy } près
crew-take-here = Le nid-de-poule est ici
crew-lat = Latitude
crew-lon = Longitude
crew-hole-length = Longueur, le long de la route
crew-hole-width = Largeur, en travers de la route
crew-hole-depth = Plus grande profondeur
crew-lane-position = Où, en travers de la route ?
crew-lane-lane = dans la voie, entre les bandes de roulement
crew-lane-wheel-path = dans une bande de roulement
crew-lane-edge = au bord de l'enduit
crew-lane-shoulder = sur l'accotement
crew-lane-centre = à l'axe
crew-place-first = L'endroit manque
crew-tell-hole = Signaler le nid-de-poule
crew-hole-told = C'est dit. Gardé sur ce téléphone et envoyé dès qu'il y a du réseau.
crew-holes-told = Signalés sur ce téléphone
crew-nearby-words = Réparations faites, la plus proche d'abord. Regardez comment elles tiennent.
crew-nearby-none = Ce téléphone ne connaît aucune réparation faite.
crew-inspect = Revoir une réparation
crew-found = Que voyez-vous ?
crew-found-holds = Elle tient
crew-found-holds-hint = plane, fermée, gravillons en place
crew-found-worn = Elle tient mais s'use
crew-found-worn-hint = gravillons perdus, liant remonté, bords ouverts
crew-found-failed = Elle a lâché
crew-found-failed-hint = de nouveau un trou : il est aussi signalé comme nouveau
crew-tell-found = Dire ce qui a été vu

# told differently
crew-differ = Dit autrement sur deux téléphones
crew-differ-words = Parlez-vous et mesurez à nouveau ; qui le redit le corrige.
crew-differ-counts = Compte : { $value }, { $who }
crew-differ-other = Dit autrement : { $value }, { $who }
crew-field-area-m2 = Surface découpée
crew-field-depths-mm = Profondeurs
crew-field-bottom-firm = Fond ferme
crew-field-sides-upright = Côtés droits
crew-field-wetness = Humidité
crew-field-zone = Zone
crew-field-thickness-mm = Épaisseur
crew-field-base-loose-m3 = Grave, foisonnée
crew-field-water-l = Eau
crew-field-moisture = Humidité dans la main
crew-field-passes-still = Passes sans vibration
crew-field-passes-vibrating = Passes avec vibration
crew-field-binder-l = Liant
crew-field-binder = Produit du liant
crew-field-cover-stone-m3 = Gravillons
crew-field-sealed-area-m2 = Surface enduite
crew-field-crown-mm = Hauteur au-dessus de la route
crew-field-dry = Surface sèche
crew-field-devices-out = Dispositifs posés
crew-field-devices-in = Dispositifs repris
crew-field-position = Endroit
crew-field-road = Route
crew-field-layout = Balisage
crew-field-stretches = Tronçons
crew-field-round = Tournée

# whose is what on the phone, and its room
crew-queue-others = { $count ->
    [one] { $count } saisie de { $who } attend sur ce téléphone. Elle part quand cette personne s'y connecte.
   *[other] { $count } saisies de { $who } attendent sur ce téléphone. Elles partent quand cette personne s'y connecte.
  }
crew-room = Place sur ce téléphone
crew-room-taken = { $taken } pris sur { $of }.
crew-room-kept = Le navigateur le garde, même quand la place lui manque.
crew-room-not-kept = Le navigateur peut l'effacer quand la place lui manque. Mettre l'application sur l'écran d'accueil, ou demander au navigateur de le garder.
crew-room-ask = Demander au navigateur de le garder
crew-room-denied = Le navigateur n'a pas accepté. Mettre l'application sur l'écran d'accueil et redemander.
crew-room-goes = Ce que le bureau a reçu disparaît d'ici tout seul : les photos après { $photo ->
    [one] un jour
   *[other] { $photo } jours
  } (une petite image reste), le reste après { $sent } jours, plans et listes { $file } jours après leur tournée. Ce qui attend ou a été refusé reste.

crew-photo-hole = D’après la photo : le nid-de-poule fait { $area } ± { $error }.
crew-photo-cut = Découpe proposée : { $area }, { $length } sur { $width }. Le chef d’équipe regarde le nid-de-poule et décide.
crew-photo-depth = Indiquez la profondeur pour qu’une découpe soit proposée.
crew-photo-no-signal = Pas de réseau : le contour est gardé, la découpe sera proposée dès qu’il y aura du réseau.
crew-photo-not-signed-in = Connectez-vous pour qu’une découpe soit proposée.

# réparations antérieures à revoir pendant la tournée
crew-look = Revoir une réparation antérieure
crew-look-open = à revoir
crew-look-passed = non revue
crew-look-along = à { $way } du début de la route
crew-look-why = Pourquoi :
crew-look-pass = Pas d’arrêt sûr
crew-look-was-passed = Non revue : aucun endroit sûr pour s’arrêter. Rien n’a été signalé ; le bureau la prévoit de nouveau.
crew-look-again-on-list = Remettre sur la liste
crew-caution-look = Arrêtez-vous hors de la chaussée, du côté de la réparation. Attention à la circulation en descendant ; personne ne marche sur la chaussée. Sans endroit sûr, continuez. Les règles locales de signalisation décident.
crew-done-there = Ce qui y a été fait
crew-done-there-unknown = Ce qui y a été fait n’est pas sur ce téléphone.
crew-layers = Couches

# ce que l’équipe voit autour de son travail
crew-not-told = Non précisé
crew-drainage = Comment l’eau quitte-t-elle la route ici ?
crew-drainage-hint = Facultatif. S’il y en a plusieurs : le pire.
crew-drainage-ditch-works = le fossé fonctionne
crew-drainage-kerb-and-gully = bordure et avaloir
crew-drainage-ditch-blocked = fossé bouché
crew-drainage-gully-blocked = avaloir bouché
crew-drainage-high-verge = accotement plus haut que la route
crew-drainage-no-drainage = rien ne l’évacue
crew-drainage-standing-water = eau stagnante à côté
crew-base-kind = Grave : nature ou provenance
crew-base-kind-hint = Facultatif, p. ex. grave 0/20 et sa carrière.
crew-weather = Temps lors de l’enduisage
crew-weather-hint = Facultatif. S’il y en a plusieurs : le dernier.
crew-weather-dry = sec
crew-weather-dry-hint = sec aussi la veille
crew-weather-damp = humide
crew-weather-damp-hint = rosée, brouillard ou bruine
crew-weather-rain-within-a-day = pluie à moins d’un jour
crew-weather-rain-within-a-day-hint = la veille, ou il pleuvra demain
crew-weather-frost = gel
crew-weather-frost-hint = la nuit dernière, ou il gèlera cette nuit
crew-air-temperature = Température de l’air
crew-field-drainage = Drainage
crew-field-base = Grave : nature ou provenance
crew-field-weather = Temps lors de l’enduisage
crew-field-air-temperature-c = Température de l’air
