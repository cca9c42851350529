# Lo que dice la orden en la salida

command-days = { $count ->
    [one] 1 día desde { $day }
   *[other] { $count } días desde { $day }
}
command-holes = { $count ->
    [one] 1 bache
   *[other] { $count } baches
}
command-zones = { $count ->
    [one] 1 zona
   *[other] { $count } zonas
}
command-rows = filas en la lista
command-holes-in-round = baches en la ronda
command-holes-in-rounds = baches en las rondas
command-holes-later = baches para más tarde
command-more-reports = más avisos de ellos
command-rows-refused = filas rechazadas
command-mended-before = reparados antes
command-back = vuelta a la base
command-job-pack = carpeta de trabajo
command-work-plan = plan de obra
command-cost = coste
command-changed = cambiado
command-in-round = { $holes }, en { $zones } zonas de obra, en { $trips } viajes
command-back-at = { $median }, nueve días de cada diez antes de { $late }
command-round = { $holes } en { $zones }, vuelta { $back }
command-round-loads = { $holes } en { $zones }, vuelta { $back }, la carga alcanza { $chance }
command-costs = { $total } { $currency }: riesgo hasta la reparación { $waiting }, riesgo que queda { $left }, cuadrillas { $time }, conducción { $driving }
command-not-worked-out = con tantos sitios no se calcula qué aportaría una cuadrilla, una hora o un metro cúbico más
command-one-more-crew = una cuadrilla más como { $crew }
command-one-more-hour = una hora más por turno
command-one-more-cubic-metre = un metro cúbico más por camión
command-saves = { $what }: ahorra { $saves } { $currency }, { $zones } zonas
command-added = { $holes } añadido a { $to }
command-moved = { $holes } de { $from } a { $to }
command-dropped = { $holes } ya no está en la ronda de { $from }
command-looks = revisiones de paso
command-looks-made = { $made }, pendientes { $left }
command-learnt = del registro
