# La carpeta de trabajo impresa, y las unidades como las llevan la cinta, la báscula y la varilla

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
sheet-both = { $first } y { $second }
sheet-either = { $first } o { $second }
sheet-range = { $low } a { $high }
sheet-percent = { $number } %
sheet-about = unos { $counted }
sheet-about-range = unos { $counted }, de { $low } a { $high }
sheet-until = hasta { $time }
sheet-page = página { $page } de { $pages }
sheet-footer = lengthsman { $version }, semilla { $seed }
sheet-title = Carpeta de trabajo, { $district }, { $date }

day-monday = lunes
day-tuesday = martes
day-wednesday = miércoles
day-thursday = jueves
day-friday = viernes
day-saturday = sábado
day-sunday = domingo
month-january = enero
month-february = febrero
month-march = marzo
month-april = abril
month-may = mayo
month-june = junio
month-july = julio
month-august = agosto
month-september = septiembre
month-october = octubre
month-november = noviembre
month-december = diciembre
month-short-january = ene
month-short-february = feb
month-short-march = mar
month-short-april = abr
month-short-may = may
month-short-june = jun
month-short-july = jul
month-short-august = ago
month-short-september = sep
month-short-october = oct
month-short-november = nov
month-short-december = dic
sheet-long-date = { $weekday } { $day } de { $month } de { $year }
sheet-short-date = { $day } { $month }
sheet-overdue = { $day }, vencido

wind-north = norte
wind-north-east = nordeste
wind-east = este
wind-south-east = sudeste
wind-south = sur
wind-south-west = sudoeste
wind-west = oeste
wind-north-west = noroeste
sheet-left = izquierda
sheet-right = derecha
sheet-centre = eje
sheet-left-by = izq. { $distance }
sheet-right-by = der. { $distance }

sheet-holes = { $count ->
    [one] 1 bache
   *[other] { $count } baches
}
sheet-holes-in-cuts = { $cuts ->
    [one] { $holes } en 1 corte
   *[other] { $holes } en { $cuts } cortes
}
sheet-holes-counted-in-cuts = { $holes ->
    [one] 1 bache en { $cuts } cortes
   *[other] { $holes } baches en { $cuts } cortes
}
sheet-holes-in-one-cut = { $count ->
    [one] 1 bache en un corte, ver abajo
   *[other] { $count } baches en un corte, ver abajo
}
sheet-people = { $count ->
    [one] 1 persona
   *[other] { $count } personas
}
sheet-devices = { $count ->
    [one] 1 elemento
   *[other] { $count } elementos
}
sheet-cones-counted = { $count ->
    [one] 1 cono
   *[other] { $count } conos
}
sheet-signs = señales
sheet-cones = conos
sheet-flaggers = banderilleros
sheet-shield-vehicles = vehículos de protección
sheet-flagger = banderillero
sheet-flagger-station = puesto de banderillero
sheet-shield-vehicle = vehículo de protección
sheet-passes = { $count ->
    [one] 1 pasada
   *[other] { $count } pasadas
}
sheet-passes-vibrating = { $count } vibrando
sheet-passes-then-vibrating = { $fixed } + { $vibrating } vibrando

sheet-severity-none = sin clasificar
sheet-severity-low = baja
sheet-severity-medium = media
sheet-severity-high = alta
sheet-severity-may-be-worse = { $now }, ¿{ $worse } el { $day }?
sheet-wetness-dry = seco
sheet-wetness-damp = húmedo
sheet-wetness-wet = mojado
sheet-wetness-seepage = mana agua
sheet-wetness-pumping = bombea
sheet-good-base = base
sheet-good-water = agua
sheet-good-binder = ligante
sheet-good-stone = gravilla
sheet-good-spoil = escombro

sheet-look-at-this = Mire esto antes de salir
sheet-alert-back-late = El turno acaba a las { $end }: de vuelta a las { $back } nueve días de cada diez, así que las últimas paradas quizá queden para otro día.
sheet-alert-no-patch = { $count ->
    [one] 1 corte no es un bacheo y no está en esta carpeta: pregunte al ingeniero. Está en la lista tras esta hoja.
   *[other] { $count } cortes no son un bacheo y no están en esta carpeta: pregunte al ingeniero. Están en la lista tras esta hoja.
}
sheet-alert-at-stops = { $count ->
    [one] Parada { $stops }: { $what }
   *[other] Paradas { $stops }: { $what }
}
sheet-alert-more = y { $count } más: mire cada hoja de zona antes de salir.
sheet-alert-too-narrow = solo quedan abiertos { $width }: el tráfico no puede pasar junto a la obra. La persona autorizada decide cómo se desvía.
sheet-alert-closed = no queda nada abierto: el tráfico no puede pasar junto a la obra. La persona autorizada decide cómo se desvía.
sheet-alert-people = hacen falta { $needed } personas con los banderilleros; la cuadrilla tiene { $people }.
sheet-alert-signs = hacen falta { $needed } señales, la base tiene { $have }. No empiece sin ellas.
sheet-alert-cones = hacen falta { $needed } conos, la base tiene { $have }. No empiece sin ellos.
sheet-alert-overload = Viaje { $trip }: { $most } a bordo como mucho, el camión puede llevar { $allowed }.

sheet-job-pack = Carpeta de trabajo
sheet-nothing-no-hole = Hoy no hay nada que hacer: no se ha avisado de ningún bache utilizable.
sheet-nothing-none-fits = { $count ->
    [one] Hoy no hay nada que hacer: el único bache avisado no cabe en la ronda de este día.
   *[other] Hoy no hay nada que hacer: ninguno de los { $count } baches avisados cabe en la ronda de este día.
}
sheet-no-daylight = sin luz de día
sheet-fact-stops = paradas
sheet-fact-holes = baches
sheet-fact-leave-depot = salida de la base
sheet-fact-go-on-at = sigue a las
sheet-fact-back = vuelta
sheet-fact-back-tipped = vuelta, escombro vertido
sheet-fact-back-by = 9 de 10 días, vuelta antes de
sheet-fact-shift = turno
sheet-fact-sun = sale y se pone el sol
sheet-fact-driving = conducción
sheet-fact-crew = cuadrilla
sheet-fact-truck = camión
sheet-fact-plant = maquinaria necesaria
sheet-fact-part-of = parte de
sheet-part-of-work-plan = un plan de obra
sheet-fact-left-out-overdue = omitidos aunque vencidos
sheet-sprayer = rociador
sheet-pouring-pot = regadera de ligante
sheet-head-from = de
sheet-head-to = a
sheet-head-stop = parada
sheet-head-what = qué
sheet-head-drive = trayecto
sheet-to-yard = a { $yard }
sheet-back-to-depot = vuelta a la base
sheet-load-for-trip = cargar para el viaje { $trip }
sheet-wait = espera
sheet-break = descanso
sheet-tip-spoil = verter el escombro
sheet-times-median = Las horas cuentan con la mediana de cada reparación (P50): tantos días van más tarde como más temprano.
sheet-look-note = Una revisión es una parada corta fuera de la calzada: nadie pisa la carretera y, donde no hay sitio para parar, se sigue. Decide la norma local.
sheet-look-at = revisar la reparación en { $road }
sheet-from-the-shoulder = desde el arcén, { $minutes }
sheet-looks-on-the-way = Revisiones de reparaciones anteriores en el camino
sheet-head-earlier-repair = reparación anterior
sheet-head-found = hallado
sheet-look-holds = aguanta
sheet-look-worn = desgastada
sheet-look-failed = fallada
sheet-look-not-made = no revisada
sheet-look-mended = reparado el { $day }
sheet-look-after-opening = { $days } días después de abrirse al tráfico
sheet-look-found-worn = hallada desgastada, se revisa de nuevo a los { $days } días
sheet-look-mark-note = Lado: en el sentido propio de la carretera, el de distancia creciente. Desgastada: gravilla perdida, ligante en superficie, bordes abiertos. Fallada, o un bache al lado: se comunica como bache nuevo. No revisada: sin sitio seguro para parar o sin tiempo.
sheet-learnt-more = Hay { $count } más en plan.json.
sheet-from-the-record = Del registro:
sheet-alt-district-map = Mapa de las carreteras del distrito con la base
sheet-alt-round-map = Mapa de la ronda: carreteras, camino recorrido, paradas numeradas

sheet-trip = { $count ->
    [one] Viaje { $trip }: parada { $first }
   *[other] Viaje { $trip }: paradas { $first } a { $last }
}
sheet-trip-empty = Viaje { $trip }
sheet-on-truck = { $count ->
    [one] Necesario en el camión: parada { $first }
   *[other] Necesario en el camión: paradas { $first } a { $last }
}
sheet-on-truck-empty = Necesario en el camión
sheet-enough = alcanza: base { $base }, agua { $water }, ligante { $binder }, gravilla { $stone }
sheet-enough-of-each = alcanza de cada uno: { $chance }
sheet-enough-and-more-at = { $enough }; más en { $places }
sheet-mass-of = { $mass } de { $payload }
sheet-mass-and-more = { $mass }, y lo demás que lleve
sheet-greatest-mass = masa máxima a bordo
sheet-spoil-back = escombro de vuelta { $volume }, { $mass }; con base, como mucho
sheet-head-compartment = compartimento o tanque
sheet-head-load = qué cargar
sheet-head-volume = volumen
sheet-head-mass = masa
sheet-head-room = cabida
sheet-head-how-full = llenado
sheet-head-done = hecho
sheet-head-on-road = en la carretera
sheet-head-needed = hacen falta
sheet-head-have = hay
sheet-head-out = fuera
sheet-short = faltan { $count }
sheet-head-whole-day = todo el día
sheet-head-as-reported = según aviso
sheet-total-base = base, suelta
sheet-total-base-stock = base, del acopio
sheet-total-water = agua por añadir
sheet-total-binder = ligante, caliente
sheet-total-stone = gravilla
sheet-total-spoil = escombro, suelto
sheet-total-work = trabajo en los baches
sheet-day-by-hand = El día a mano:
sheet-suffices = La probabilidad de que nada se acabe en todo el día es { $chance }.
sheet-p10-p50-p90 = P10, P50, P90: de la suma del día, una, cinco, nueve de cada diez veces es menor.

sheet-cautions = Precauciones
sheet-caution-traffic = Tráfico vivo:
sheet-caution-traffic-text = nunca trabajar fuera del espacio cerrado; ropa de alta visibilidad; una salida; parar si falta un elemento.
sheet-caution-hot-binder = Ligante caliente:
sheet-caution-hot-binder-text = quema: guantes, pantalla facial, mangas largas; piel quemada bajo agua fresca, ir al médico, no arrancar el ligante.
sheet-caution-cutback = Vapor y fuego:
sheet-caution-cutback-text = el asfalto diluido suelta disolvente: sin llama, sin fumar, sin bombear cerca de una ignición; extintor a mano.
sheet-caution-emulsion = Emulsión:
sheet-caution-emulsion-text = no hervirla, no dejarla helar, nunca en un tanque con otro ligante; ojos y piel cubiertos.
sheet-caution-dust = Polvo de sílice:
sheet-caution-dust-text = cortar en húmedo o con mascarilla hecha para ello.
sheet-caution-services = Servicios enterrados:
sheet-caution-services-text = preguntar y marcar antes de excavar; en la duda, parar.
sheet-caution-vibration = Vibración, ruido:
sheet-caution-vibration-text = turnarse en rodillo, placa y martillo; protección auditiva.
sheet-caution-lifting = Cargas:
sheet-caution-lifting-text = dos personas o una máquina para lo pesado; la espalda recta.
sheet-caution-weather = Calor y frío:
sheet-caution-weather-text = agua, sombra, pausas; cuidarse unos a otros.
sheet-caution-drains = Drenajes y agua:
sheet-caution-drains-text = tapar las entradas; ni ligante ni escombro ni agua de lavado a los drenajes.
sheet-cautions-usual = Estas son las precauciones habituales, no todas. Primero van los códigos locales, las fichas de seguridad y las personas formadas y autorizadas para el trabajo.
sheet-cautions-today = Precauciones para los materiales y la maquinaria de hoy
sheet-proposal = La disposición es una propuesta.
sheet-proposal-decides = Deciden el código local de control de tráfico y la persona autorizada por él.
sheet-sign-crew-leader = jefe de cuadrilla
sheet-sign-authorised = persona autorizada para el control de tráfico
sheet-sign-date-time = fecha, hora

sheet-left-out = Omitidos:
sheet-input = Datos:
sheet-details-behind = Detalles tras esta hoja.
sheet-left-out-of-work-plan = Esta carpeta es una ronda de un plan de obra; lo que no hace ninguna ronda está en su work-plan.json.
sheet-left-out-none = Todos los baches utilizables están en esta carpeta.
sheet-left-out-summary = { $count ->
    [one] 1 bache no está en esta carpeta
   *[other] { $count } baches no están en esta carpeta
}, { $overdue ->
    [0] ninguno vencido
    [one] 1 vencido
   *[other] { $overdue } vencidos
}: { $reasons }.
sheet-left-out-less-urgent = menos urgentes que lo que llena el día
sheet-left-out-not-worth = no merecen el tiempo que piden
sheet-left-out-no-window = sin franja del día bastante larga
sheet-left-out-exceeds-shift = más largos que el turno
sheet-left-out-exceeds-truck = más de lo que lleva el camión
sheet-left-out-unreachable = sin carretera de ida y vuelta
sheet-left-out-not-a-patch = no son bacheo: pregunte al ingeniero
sheet-left-out-no-crew = sin cuadrilla con la maquinaria
sheet-left-out-as-asked = omitidos a petición
sheet-left-out-off-roads = fuera de las carreteras de este distrito
sheet-left-out-other = { $count } por otras razones
sheet-reason-of-its-own = cada uno por su propia razón
sheet-more-left-out = y { $count } más, menos urgentes; todos en plan.json
sheet-more-problems = y { $count } más, todos en plan.json
sheet-and-more = y { $count } más
sheet-input-of-work-plan = Lo que estaba mal en los datos también está allí.
sheet-input-fine = No había nada mal en los datos.
sheet-input-summary = { $count ->
    [one] 1 problema en los datos
   *[other] { $count } problemas en los datos
}, { $refused ->
    [0] ninguno rechazado
    [one] 1 registro rechazado
   *[other] { $refused } registros rechazados
}.
sheet-signs-to-take = Señales que llevar, cada una con su soporte
sheet-not-a-patch = No es un bacheo: pregunte al ingeniero
sheet-not-in-pack = Fuera de esta carpeta, lo más urgente primero (día en negrita: vencido; día con ¿?: puede empeorar desde entonces)
sheet-what-was-wrong = Lo que estaba mal en los datos
sheet-head-hole = bache
sheet-head-road = carretera
sheet-head-severity = gravedad
sheet-head-mend-by = plazo
sheet-head-work = trabajo
sheet-head-why-no-patch = dónde, por qué no es bacheo, qué pediría un bacheo (P90)
sheet-head-where = dónde
sheet-head-record = registro
sheet-head-wrong = qué estaba mal; qué estaría bien
sheet-engineer-figures = corte { $area }, hasta { $depth } de hondo; base { $base }, escombro { $spoil }, hasta { $work } de trabajo

sheet-fact-latitude = latitud, longitud
sheet-fact-work-space = zona de obra en progresiva
sheet-fact-heads = el carril va hacia el
sheet-fact-speed = límite de velocidad
sheet-fact-lanes = carriles
sheet-lanes-sealed = { $lanes }, tratados { $width }
sheet-fact-keeps = se circula por la
sheet-fact-left-open = queda abierto
sheet-fact-duration-class = clase de duración
sheet-fact-set-up = montar, retirar
sheet-fact-busiest-hour = hora punta
sheet-fact-shared = compartida
sheet-chainage-rule = La progresiva cuenta desde { $from } hacia { $towards }.
sheet-before-place = { $distance } antes de { $place }
sheet-past-place = { $distance } después de { $place }
sheet-before-place-range = { $near } a { $far } antes de { $place }
sheet-past-place-range = { $near } a { $far } después de { $place }
sheet-queue-clears = { $flow } vehículos/h: parada { $stop }, esperan { $count } a { $vehicles }, cola { $back }
sheet-queue-none = { $flow } vehículos/h, pasan { $most } vehículos/h: sin cola
sheet-queue-grows = { $flow } vehículos/h, pasan { $most } vehículos/h: crece
sheet-queue-unknown = aforo desconocido, vale hasta { $most } vehículos/h
sheet-sharing-saves = { $holes }, una zona: ahorra { $saved }
sheet-sharing-saves-and-takes = { $holes }, una zona: ahorra { $saved }, pide { $more } más
sheet-sharing-takes = { $holes }, una zona: pide { $more } más
sheet-sharing-as-long = { $holes }, una zona: lo mismo que por separado
sheet-layout-source = Disposición: { $source }.
sheet-placing = Colocar
sheet-removing = Retirar
sheet-in-this-order = , en este orden
sheet-right-left = der., izq.: como lo ve el conductor.
sheet-head-number = n.º
sheet-head-device = elemento
sheet-head-for = para
sheet-head-from-work = desde la zona de obra
sheet-head-side = lado, desde el eje
sheet-head-step = paso
sheet-head-in = dentro
sheet-head-count-back = recuento
sheet-head-list = lista
sheet-traffic-our-lane = nuestro carril
sheet-traffic-oncoming = contrario
sheet-traffic-joining = se incorpora
sheet-on-side-road = en { $road }, a { $distance } de su cruce en { $junction }
sheet-spot-before = { $distance } antes
sheet-spot-past = { $distance } después
sheet-spot-inside = { $distance } adentro
sheet-spot-at-start = en su comienzo
sheet-spot-at-end = en su final
sheet-spot-its-start = su comienzo
sheet-spot-its-end = su final
sheet-spot-whole = a todo lo largo
sheet-spot-between = de { $from } a { $to }
sheet-every = cada { $distance }
sheet-apart = separados { $range }
sheet-side-by-side = uno junto a otro
sheet-drive = conducir { $distance }
sheet-walk = andar { $distance }
sheet-turn = { $count ->
    [one] dar la vuelta
   *[other] dar la vuelta { $count } veces
}
sheet-way-time = { $way }: { $time }
sheet-cuts-in-zone = Cortes en esta zona
sheet-remarks-behind = { $count ->
    [one] 1 observación en la página siguiente: léala antes de colocar nada.
   *[other] { $count } observaciones en la página siguiente: léalas antes de colocar nada.
}
sheet-remarks-on-zone = Observaciones sobre la zona de obra
sheet-alt-place-map = Mapa de los alrededores con el lugar de la obra
sheet-alt-zone = Plano de la zona de obra con todos los elementos y distancias

sheet-names-and-more = { $names } y { $count } más
sheet-size-corners = { $size }, { $corners } esquinas
sheet-size-deep = { $size }, { $depth } de hondo
sheet-outline = contorno
sheet-fact-chainage = progresiva
sheet-fact-place = lugar
sheet-fact-reported = avisado
sheet-fact-mend-by = plazo
sheet-fact-work = trabajo
sheet-fact-diagonals = diagonales
sheet-fact-severity = gravedad
sheet-fact-compact-with = compactar con
sheet-place-lane = carril
sheet-place-wheel-path = rodera
sheet-place-edge = borde
sheet-place-shoulder = arcén
sheet-place-centre = eje
sheet-holes-of-one-cut = { $count } baches en un corte: { $sizes }
sheet-so-long = { $range } de largo
sheet-so-wide = { $range } de ancho
sheet-so-deep = { $range } de hondo
sheet-reported-often = { $name } avisado { $count } veces: { $reports }
sheet-reported-often-since = { $name } avisado { $count } veces, primero el { $first }: { $reports }
sheet-reports-more = { $count } más en plan.json
sheet-by-hand = A mano:
sheet-head-quantity = cantidad
sheet-head-p10-to-p90 = P10 a P90
sheet-head-how = cómo se calcula
sheet-head-how-metric = cómo se calcula, en métrico
sheet-quantity-cut-area = corte, superficie
sheet-quantity-cut-length = corte, largo a serrar o picar
sheet-quantity-depth = hondura del hoyo excavado
sheet-quantity-layers = capas
sheet-quantity-layer-compacted = una capa, compactada
sheet-quantity-layer-loose = una capa, suelta
sheet-quantity-base-compacted = base, compactada, con bombeo
sheet-quantity-base-loose = base, suelta a colocar
sheet-quantity-base-dry = base, masa seca
sheet-quantity-base-stock = base, del acopio
sheet-quantity-water = agua por añadir
sheet-quantity-water-to-dry = agua que secar antes
sheet-quantity-passes = pasadas
sheet-quantity-rolling = rodillo, todas las capas
sheet-quantity-seal-area = tratamiento nuevo, superficie
sheet-quantity-binder-rate = dotación de ligante
sheet-quantity-binder-hot = ligante, caliente
sheet-quantity-stone-rate = dotación de gravilla
sheet-quantity-stone = gravilla
sheet-quantity-stone-loose = gravilla, suelta
sheet-quantity-spoil-loose = escombro, suelto
sheet-quantity-spoil-mass = escombro, masa
sheet-passes-how = { $lanes ->
    [one] cada capa, 1 franja de ancho; { $compactor }
   *[other] cada capa, { $lanes } franjas de ancho; { $compactor }
}
sheet-container = { $count } × { $name } de { $volume }
sheet-containers = { $containers }; sobran { $rest }
sheet-compactor-last-layer = { $machine }, última capa { $last }
sheet-head-stage = etapa
sheet-head-time = tiempo
sheet-head-look = mírelo, márquelo; anote lo medido
sheet-stage-traffic-control-out = señalizar
sheet-stage-mark-out = marcar
sheet-stage-cut-out = cortar y vaciar
sheet-stage-fill = rellenar
sheet-stage-compact = compactar
sheet-stage-seal = sellar
sheet-stage-clean-up = limpiar
sheet-stage-traffic-control-in = retirar la señalización
sheet-check-stands = está como en la hoja de zona
sheet-check-driven = recorrida y mirada
sheet-check-services = servicios marcados
sheet-check-cleaned = bache limpio, mirado
sheet-check-lines = líneas rectas, a escuadra, en tratamiento sano
sheet-check-outwards = del centro hacia fuera
sheet-check-upright = lados verticales en 4 sitios
sheet-check-bottom = fondo firme y plano
sheet-check-spoil = escombro en el camión
sheet-check-falls-apart = en la mano: se deshace, añadir agua
sheet-check-keeps-shape = mantiene la forma
sheet-check-oozes = rezuma, extender y secar
sheet-check-loose = { $thickness } suelto por capa
sheet-check-compactor = con { $machine }
sheet-check-edges = el rodillo no toca los bordes
sheet-check-corners = primero las esquinas, luego adentro
sheet-check-passes = cada capa { $passes }
sheet-check-proud = última capa sobresale { $proud }
sheet-check-clean-dry = limpio y seco
sheet-check-binder-at = ligante a { $temperature }
sheet-check-stone = gravilla enseguida, una capa
sheet-check-bedded = rodillo hasta que asiente
sheet-check-swept = barrido: calzada, arcén, drenajes
sheet-check-swept-again = otra vez tras { $first }, { $second } h
sheet-check-tools = herramientas y material contados
sheet-check-reverse = orden inverso
sheet-check-count = cuenta dentro = cuenta fuera
sheet-check-opened = abierto { $wait } tras la gravilla, { $speed } durante { $hours } h
sheet-field-time = hora
sheet-field-long = largo
sheet-field-wide = ancho
sheet-field-photo = foto
sheet-field-depth-found = hondura hallada
sheet-field-moisture = humedad
sheet-field-percent = %
sheet-field-water = agua
sheet-field-layer = capa { $layer }
sheet-field-passes = pasadas { $layer }:
sheet-field-proud = sobresale
sheet-field-binder = ligante
sheet-field-stone = gravilla
sheet-field-crown = bombeo
sheet-if-deeper = Si el bache resulta más hondo
sheet-head-depth-found = hondura
sheet-head-layers = capas
sheet-head-base = base
sheet-head-loose = suelta
sheet-head-water = agua
sheet-cautions-behind = Precauciones, completas tras la portada:
sheet-remarks = Observaciones
sheet-alt-cut = Plano del corte con medidas
sheet-alt-section = Sección con capas
sheet-alt-pattern = Orden de compactación, desde las esquinas

# Lo que enseña el registro
sheet-learnt-growth = el plan cuenta ahora con excavar un { $percent } { $more ->
    [more] más
   *[less] menos
  }
sheet-learnt-base = el plan carga ahora un { $percent } { $more ->
    [more] más
   *[less] menos
  } de base
sheet-learnt-water = el plan carga ahora un { $percent } { $more ->
    [more] más
   *[less] menos
  } de agua
sheet-learnt-binder = el plan carga ahora un { $percent } { $more ->
    [more] más
   *[less] menos
  } de ligante
sheet-learnt-cover-stone = el plan carga ahora un { $percent } { $more ->
    [more] más
   *[less] menos
  } de gravilla
sheet-learnt-time = el plan da ahora un { $percent } { $more ->
    [more] más
   *[less] menos
  } de tiempo
sheet-learnt-repairs-district = { $count ->
    [one] 1 reparación del distrito
   *[other] { $count } reparaciones del distrito
}
sheet-learnt-repairs-there = { $count ->
    [one] 1 reparación allí
   *[other] { $count } reparaciones allí
}
sheet-learnt-repairs-crew = { $count ->
    [one] 1 reparación suya
   *[other] { $count } reparaciones suyas
}
sheet-learnt-took = en { $repairs } se gastó { $times } veces lo previsto
sheet-learnt-turned-out = en { $repairs } se excavó { $times } veces lo que esperan las reglas
sheet-learnt-time-taken = en { $repairs } se tardó { $times } veces el tiempo previsto
sheet-learnt-believed = { $median } (de { $low } a { $high })
sheet-learnt-district = { $does }, porque { $took }; ponderado con las reglas, { $believed }
sheet-learnt-road = { $does } en { $road }, porque { $took }; ponderado con las demás, { $believed }
sheet-learnt-crew = { $does } para { $crew }, porque { $took }; ponderado con las demás, { $believed }
sheet-learnt-kept = { $sentence }; limitado a entre { $least } y { $most }
sheet-roads-motorway = autopistas
sheet-roads-trunk = carreteras troncales
sheet-roads-primary = carreteras primarias
sheet-roads-secondary = carreteras secundarias
sheet-roads-tertiary = carreteras terciarias
sheet-roads-unclassified = carreteras sin clasificar
sheet-roads-residential = calles residenciales
sheet-roads-service = vías de servicio
sheet-roads-track = caminos
sheet-roads-with-shoulder = { $roads } con arcén
sheet-roads-without-shoulder = { $roads } sin arcén
