# Ce que dit la commande

command-days = { $count ->
    [one] 1 jour à partir du { $day }
   *[other] { $count } jours à partir du { $day }
}
command-holes = { $count ->
    [one] { $count } nid-de-poule
   *[other] { $count } nids-de-poule
}
command-zones = { $count ->
    [one] { $count } zone
   *[other] { $count } zones
}
command-rows = lignes de la liste
command-holes-in-round = nids-de-poule de la tournée
command-holes-in-rounds = nids-de-poule des tournées
command-holes-later = nids-de-poule pour plus tard
command-more-reports = autres signalements
command-rows-refused = lignes refusées
command-mended-before = réparés avant
command-back = retour au dépôt
command-job-pack = dossier de travail
command-work-plan = plan de travaux
command-cost = coût
command-changed = modifié
command-in-round = { $holes }, en { $zones } zones de travaux, en { $trips } voyages
command-back-at = { $median }, neuf jours sur dix avant { $late }
command-round = { $holes } en { $zones }, retour { $back }
command-round-loads = { $holes } en { $zones }, retour { $back }, le chargement suffit { $chance }
command-costs = { $total } { $currency } : risque jusqu’à la réparation { $waiting }, risque restant { $left }, équipes { $time }, conduite { $driving }
command-not-worked-out = avec autant de chantiers, l’apport d’une équipe, d’une heure ou d’un mètre cube de plus n’est pas calculé
command-one-more-crew = une équipe de plus comme { $crew }
command-one-more-hour = une heure de plus par poste
command-one-more-cubic-metre = un mètre cube de plus par camion
command-saves = { $what } : économise { $saves } { $currency }, { $zones } zones
command-added = { $holes } ajouté à { $to }
command-moved = { $holes } de { $from } à { $to }
command-dropped = { $holes } n’est plus dans la tournée de { $from }
command-looks = vérifications en passant
command-looks-made = { $made }, laissées { $left }
command-learnt = d’après le registre
