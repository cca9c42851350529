# El informe del mes, impreso y como página

report-title = { $month } de { $year }
report-date = { $day } { $month } { $year }
report-about = Bacheo de carreteras con tratamiento superficial: qué se hizo, qué costó, qué queda y qué dura.
report-goes-on = El mes sigue: cuenta lo dicho hasta el { $day }.
report-footer = lengthsman { $version }, hecho con el registro hasta el evento { $event }
report-all = todo
report-named = { $what }: { $value }
report-price = { $amount } { $currency }
report-spread = { $middle } ({ $low }–{ $high })
report-road-not-known = carretera desconocida
report-road = carretera
report-days = { $count ->
    [one] { $count } día
   *[other] { $count } días
}

## What was done
report-done = Lo que se hizo
report-repairs-opened = reparaciones abiertas al tráfico
report-area-cut = área cortada
report-area-of-repairs = { $area } de { $count } reparaciones
report-month-before = el mes anterior
report-repairs-counted = { $count ->
    [one] { $count } reparación
   *[other] { $count } reparaciones
}
report-new-holes = baches nuevos avisados
report-by-each-road = Por carretera
report-more-roads = { $count ->
    [one] { $count } carretera más
   *[other] { $count } carreteras más
}
report-repairs = reparaciones
report-cost-of-month = coste del mes
report-told-and-mended = Baches avisados y reparados, mes a mes
report-told = avisados
report-mended = reparados
report-told-and-mended-in = { $month }: { $told } avisados, { $mended } reparados

## What it cost
report-cost = Lo que costó
report-for = por
report-money = importe
report-share = parte
report-per-repair = por reparación
report-per-m2 = por m² cortado
report-per-ft2 = por ft² cortado
report-not-every-area = no se dijeron todas las áreas
report-planned-and-actual = Previsto y real, de reparaciones que dicen ambos
report-part-of-planned = Lo real como parte de lo previsto
report-planned = previsto
report-actual = real
report-more = de más
report-of-planned = { $what }: { $share } de lo previsto
report-part-labour = mano de obra
report-part-plant = maquinaria
report-part-base = base
report-part-cover-stone = gravilla
report-part-binder = ligante
report-part-water = agua
report-part-other-material = otro material
report-part-wasted = desechado
report-part-count-difference = diferencia de recuento
report-part-price-difference = diferencia de precio
report-base-loose = base, suelta
report-time-at-zone = tiempo en la zona

## Stock
report-stock = Existencias
report-nothing-held = No se guardó ni se movió nada.
report-used-beyond-books = { $item }: se usó más de lo que los libros conocen; recuéntelo y anote lo que entró.
report-item = artículo
report-opening = inicial
report-bought = comprado
report-into-repairs = en reparaciones
report-lost = perdido
report-closing = final
report-worth = valor
report-stock-spoil = escombro
report-stock-signs = señales
report-stock-cones = conos
report-stock-other-devices = otros elementos

## Risk that is left
report-left = Riesgo que queda
report-open-holes = baches abiertos al final
report-past-their-day = pasados de fecha
report-severity = gravedad
report-severity-counted = { $severity }: { $count }
report-none-judged = ninguno valorado
report-not-judged = sin valorar
report-riskiest = Los de más riesgo
report-hole = bache
report-risk-points = puntos de riesgo
report-open-for = abierto desde hace
report-due = fecha límite
report-risk-note = Los puntos de riesgo ordenan los baches y no miden ninguna probabilidad; ningún número de puntos significa que un bache sea seguro. Los baches sin medir, o que no están en una carretera que se conserve, no se valoran: mídalos.

## What lasts
report-lasts = Lo que dura
report-lives-known = vidas de reparaciones conocidas
report-lives-failed = de ellas fallaron
report-lasts-note = El registro muestra qué fue junto, no cuál fue la causa: a las cuadrillas les tocan carreteras distintas. Una diferencia que el azar solo haría no es ninguna.
report-nothing-to-compare = El registro aún no dice nada con lo que comparar reparaciones.
report-by = según
report-group = grupo
report-failed = fallos
report-half-outlast = la mitad pasa de
report-mean-life = vida media dentro de la ventana
report-mean-within = { $mean } ± { $error } de { $days }
report-too-few = muy pocos para saber
report-not-reached = no se alcanza
report-still-whole-by = Reparaciones aún enteras, según { $by }
report-still-whole = aún enteras
report-at-risk = en observación
report-days-unit = días
report-curve-in-words = { $group }: { $lives } vidas, { $failures } fallos, la mitad pasa de { $median }
report-differ = Los grupos difieren: el azar solo los separaría así en { $cases } de 100 casos.
report-pairs-differ = De dos en dos difieren: { $pairs }.
report-pair = { $first } y { $second }
report-no-difference = No se muestra diferencia: el azar solo separaría así los grupos en { $cases } de 100 casos. Eso no prueba que sean iguales.
report-groups-too-few = Si los grupos difieren: muy pocos fallos para saber.
report-less-than = menos de { $number }
report-by-crew = cuadrilla
report-by-material = material de base
report-by-binder = ligante
report-by-layers = número de capas
report-by-moisture = base en la mano
report-by-wetness = agua en el bache
report-by-surface = superficie al sellar
report-by-weather = tiempo al sellar
report-by-temperature = temperatura del aire
report-by-month = mes
report-by-season = época del año
report-by-road = carretera
report-by-road-class = clase de vía
report-by-traffic = tráfico
report-by-drainage = drenaje
report-by-rules = cumplimiento de las reglas
report-group-not-known = no se sabe
report-group-dry-surface = superficie seca
report-group-wet-surface = superficie mojada
report-group-by-rules = según las reglas
report-group-not-by-rules = no según las reglas
report-group-falls-apart = se deshace
report-group-keeps-shape = mantiene la forma
report-group-oozes = rezuma
report-group-layers = { $count ->
    [one] { $count } capa
   *[other] { $count } capas
}
report-group-traffic-under = menos de { $most } al día
report-group-traffic-between = { $from } a { $to } al día
report-group-traffic-from = { $least } al día o más
report-group-ditch-works = la cuneta funciona
report-group-ditch-blocked = cuneta obstruida
report-group-kerb-and-gully = bordillo y sumidero
report-group-gully-blocked = sumidero obstruido
report-group-high-verge = arcén más alto que la calzada
report-group-no-drainage = sin drenaje
report-group-standing-water = agua estancada al lado
report-group-weather-dry = tiempo seco
report-group-weather-damp = rocío, niebla o llovizna
report-group-weather-rain = lluvia en un día
report-group-weather-frost = helada
report-group-temperature-under = menos de { $most }
report-group-temperature-between = de { $from } a { $to }
report-group-temperature-from = { $least } y más
report-class-motorway = autopista
report-class-trunk = vía troncal
report-class-primary = primaria
report-class-secondary = secundaria
report-class-tertiary = terciaria
report-class-unclassified = sin clasificar
report-class-residential = calle residencial
report-class-service = vía de servicio
report-class-track = camino

## Where patching nears its end
report-stop = Donde el bacheo llega a su fin
report-stretches = tramos mirados
report-past-patching = ya no compensa bachear
report-repair-price = precio de una reparación
report-years-looked-at = años considerados
report-engineer-decides = **Decide el ingeniero de carreteras.** Los tramos en que renovar ahora sale mejor frente a seguir bacheando, diez como mucho; donde ya no compensa bachear, renovar ahora cuesta menos en nueve de cada diez futuros. Los metros o pies van a lo largo de la sección del archivo de carreteras.
report-stop-caption = Costes en { $years } años a valor de hoy, en miles de { $currency }: media, y entre paréntesis desde lo que uno de cada diez futuros no alcanza hasta lo que nueve no pasan. Más barato: en esa parte de los futuros.
report-m-along = m de la sección
report-ft-along = ft de la sección
report-holes-a-year = baches al año
report-patched-on = seguir bacheando
report-renewed-now = renovar ahora
report-renewed-by = renovación
report-even-in-year = se igualan en el año
report-renewing-cheaper = renovar, más barato
report-later = después
report-renewal-reseal = nuevo riego con gravilla
report-renewal-new-base = base nueva y sellado
report-stop-note = El modelo conoce baches, precios y vidas de reparaciones. No sabe qué hay bajo la superficie, ni del agua que llega de los lados, el tráfico que vendrá, obras de otros o lo que una carretera cerrada cuesta a quienes la usan. Los precios y vidas de las renovaciones son ajuste de la entidad. El diseño del firme corresponde a un ingeniero autorizado.
report-no-roads = No se conocen carreteras, así que nada puede decirse de sus tramos.
report-too-short = En el registro hay menos de un cuarto de año: muy poco para saber cuántos baches trae un año.
report-no-cost = Ninguna reparación de los últimos doce meses tiene un coste en los libros, así que seguir bacheando no tiene precio.
report-no-hole = Ningún bache nuevo del registro está en una carretera que se conserve.
report-no-law = Las reglas no dan ninguna ley de vida de las reparaciones con la que se pueda trabajar.
report-unworkable = Con los ajustes de las reglas no se puede calcular.

## How the figures were worked out
report-workings = Cómo se calcularon las cifras, y lo que no pueden decir
report-figure = cifra
report-how = cómo
report-where-from = de dónde
report-source-record = el registro
report-source-books = los libros
report-source-handbook = manual, { $page }
report-source-books-and-handbook = los libros; manual, { $page }
report-source-distance = manual, { $page }; distancia: { $source }
report-source-arrival = manual, { $page }; los baches que son el fallo de una reparación no son nuevos
report-figure-repairs = Reparaciones, área
report-how-repairs = reparaciones sobre las que pasó el tráfico por primera vez en el mes (selladas, si nadie dijo que se abrieran); área tal como se cortó, hasta donde las cuadrillas la dijeron
report-figure-cost = Coste
report-how-cost = tiempo anotado a los precios del distrito, material al precio medio de lo que había en existencias cuando se usó; lo anotado en una ronda se reparte entre sus reparaciones
report-figure-stock = Existencias
report-how-stock = inicial + comprado − en reparaciones − perdido = final, sumando depósitos, camiones y zonas; perdido es lo tirado menos lo hallado en recuentos, y puede contener una diferencia de precio
report-figure-planned = Previsto y real
report-how-planned = sumas sobre las reparaciones del mes de las que se dijeron ambos; previsto es el último plan de cada una
report-figure-risk = Puntos de riesgo, gravedad, fecha límite
report-how-risk = tal como se midió el bache la última vez, valorado el último día del informe
report-figure-lives = Vidas de reparaciones
report-how-lives = desde la apertura hasta que alguien dijo o vio que falló, o se vio un bache nuevo a menos de { $distance } en el mismo lado; si no, entera hasta el { $day }
report-figure-lasts = Lo que dura
report-how-lasts = curvas producto-límite, franjas del { $confidence }, prueba de rangos logarítmicos; menos de { $failures } fallos son muy pocos para saber
report-figure-stop-price = Fin del bacheo: precio de una reparación
report-how-stop-price = todos los costes de los últimos doce meses, { $cost }, entre { $repairs } reparaciones = { $price }
report-figure-stop-holes = Fin del bacheo: baches nuevos al año
report-how-stop-holes = { $holes } baches nuevos en { $years } años en las carreteras que se conservan, { $length } km·año: { $rate } por kilómetro y año; { $drawn }
report-how-stop-anew = ; donde una carretera recibió un nuevo firme, baches y tiempo cuentan desde ese día
report-not-drawn = los tramos no difieren más que por azar, así que cada uno tiene la tasa del distrito
report-drawn-by = el recuento de cada tramo se acerca a ella como si { $holes } baches esperados se hubieran visto en otra parte
report-figure-stop-lives = Fin del bacheo: vidas de reparaciones
report-how-law-of-lives = ley de Weibull ajustada a { $lives } vidas con { $failures } fallos: escala { $scale } años, forma { $shape }
report-how-law-of-rules = muy pocos fallos para saber; ley de Weibull de las reglas: escala { $scale } años, forma { $shape } ({ $source })
report-figure-stop-costs = Fin del bacheo: costes y año en que se igualan
report-how-stop-costs = { $futures } futuros de { $years } años al { $interest } de interés; los baches nuevos crecen un { $growth } al año; { $renewals }
report-renewal-in-words = { $renewal } { $price } por m², queda el { $left } de los baches nuevos, se amortiza en { $years } años ({ $source })
report-limit-not-told = Lo que nadie dijo no está en el registro ni en este informe. Lo que se diga después cambia el informe de un mes ya pasado.
report-limit-sizes = Los tamaños de los baches son los últimos dichos cuando se hizo el informe, no los del último día del mes.
report-limit-not-judged = { $count ->
    [one] { $count } bache abierto no está valorado.
   *[other] { $count } baches abiertos no están valorados.
}
report-limit-no-place = Ninguna reparación está en una carretera conocida: de ningún bache nuevo se pudo decir que fuera el fallo de una reparación.
report-limit-resurfaced-nowhere = { $count ->
    [one] Se comunicó { $count } firme nuevo que no está en ninguna carretera conocida: las reparaciones que hay debajo siguen contando como observadas.
   *[other] Se comunicaron { $count } firmes nuevos que no están en ninguna carretera conocida: las reparaciones que hay debajo siguen contando como observadas.
}
report-limit-findings = { $count ->
    [one] Los libros tienen { $count } aviso que alguien debe mirar; puede cambiar existencias y coste.
   *[other] Los libros tienen { $count } avisos que alguien debe mirar; pueden cambiar existencias y coste.
}
report-budget-caption = Lo que deja el dinero para renovaciones, si va primero adonde evita más baches; miles de { $currency }
report-budget-across = dinero para renovaciones, miles
report-budget-up = baches por venir en { $years } años, con las reparaciones que fallan
