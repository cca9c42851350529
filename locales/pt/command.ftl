# O que diz o comando

command-days = { $count ->
    [one] 1 dia desde { $day }
   *[other] { $count } dias desde { $day }
}
command-holes = { $count ->
    [one] { $count } buraco
   *[other] { $count } buracos
}
command-zones = { $count ->
    [one] { $count } zona
   *[other] { $count } zonas
}
command-rows = linhas na lista
command-holes-in-round = buracos na volta
command-holes-in-rounds = buracos nas voltas
command-holes-later = buracos para mais tarde
command-more-reports = mais avisos deles
command-rows-refused = linhas recusadas
command-mended-before = reparados antes
command-back = volta ao depósito
command-job-pack = pasta de trabalho
command-work-plan = plano de obra
command-cost = custo
command-changed = alterado
command-in-round = { $holes }, em { $zones } zonas de trabalho, em { $trips } viagens
command-back-at = { $median }, nove dias em dez até { $late }
command-round = { $holes } em { $zones }, volta { $back }
command-round-loads = { $holes } em { $zones }, volta { $back }, a carga chega { $chance }
command-costs = { $total } { $currency }: risco até à reparação { $waiting }, risco que fica { $left }, equipas { $time }, condução { $driving }
command-not-worked-out = com tantos locais não se calcula o que traria mais uma equipa, hora ou metro cúbico
command-one-more-crew = mais uma equipa como { $crew }
command-one-more-hour = mais uma hora por turno
command-one-more-cubic-metre = mais um metro cúbico por camião
command-saves = { $what }: poupa { $saves } { $currency }, { $zones } zonas
command-added = { $holes } juntado a { $to }
command-moved = { $holes } de { $from } para { $to }
command-dropped = { $holes } já não está na volta de { $from }
command-looks = verificações de passagem
command-looks-made = { $made }, por fazer { $left }
command-learnt = do registo
