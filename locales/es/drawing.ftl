# Los dibujos: plano de una zona de obra, plano y sección de un corte, mapas

drawing-north = N
drawing-hole = bache
drawing-cut = corte
drawing-traffic-along = tráfico, a lo largo de la carretera
drawing-along = a lo largo de la carretera
drawing-along-chainage = a lo largo de la carretera, progresiva creciente
drawing-new-seal = borde del tratamiento nuevo
drawing-new-seal-over = borde del tratamiento nuevo, { $overlap } más
drawing-edge-of-seal = borde del tratamiento
drawing-centre-line = eje
drawing-long-side-along = lado largo a lo largo de la carretera
drawing-long-side-across = lado largo a escuadra con la carretera
drawing-long-side-left = lado largo girado { $angle }° a la izquierda
drawing-long-side-right = lado largo girado { $angle }° a la derecha
drawing-chainage-0 = progresiva 0
drawing-trip = viaje { $trip }
drawing-not-today = hoy no
drawing-section = sección, ancho no a escala
drawing-layer = capa { $layer }
drawing-loose = suelta { $thickness }
drawing-seal = ligante y gravilla, bombeo
drawing-seal-crown = ligante y gravilla, bombeo { $crown }
drawing-overlap = solape alrededor
drawing-overlap-by = solape { $overlap } alrededor
drawing-pattern = desde las esquinas; fuera de bordes
drawing-pattern-last = última: { $pattern }
drawing-part-advance-warning = aviso previo
drawing-part-taper = transición
drawing-part-buffer = espacio de seguridad
drawing-part-work-space = zona de obra
drawing-part-downstream-taper = transición de salida
drawing-sign = señal
drawing-cone = cono
drawing-flagger = banderillero
drawing-shield-vehicle = vehículo de protección
drawing-on-road = en { $road }
drawing-into-road = { $distance } adentro
drawing-moved-by = movida { $distance }
drawing-work-zone = Zona de obra
drawing-work-zone-on = Zona de obra en { $road }
drawing-nothing-open = no queda nada abierto
drawing-open = abierto { $width }
drawing-open-impassable = abierto { $width }: el tráfico no pasa
drawing-moved = movida del lugar de la regla
drawing-closed = cerrado junto a la obra
drawing-broken-length = largo no dibujado entero
drawing-scale-whole = a lo largo a escala, a lo ancho no
drawing-scale-core = del primer al último cono a escala a lo largo, el resto no
drawing-scale-none = no a escala: valen las distancias
drawing-to-place = a { $place }
drawing-signs-counted = { $count ->
    [one] 1 señal
   *[other] { $count } señales
}
drawing-flaggers-counted = { $count ->
    [one] 1 banderillero
   *[other] { $count } banderilleros
}
drawing-shield-vehicles-counted = { $count ->
    [one] 1 vehículo de protección
   *[other] { $count } vehículos de protección
}
drawing-no-devices = no hay nada en la carretera
drawing-description = { $layout }. Plano, una propuesta: { $devices }. La zona de obra mide { $length } de largo; al lado quedan abiertos { $width }. El tráfico del carril en obra va de izquierda a derecha. Cada cosa lleva su número en el orden de colocación.
