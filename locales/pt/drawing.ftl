# Os desenhos: planta de uma zona de trabalho, planta e secção de um corte, mapas

drawing-north = N
drawing-hole = buraco
drawing-cut = corte
drawing-traffic-along = tráfego, ao longo da estrada
drawing-along = ao longo da estrada
drawing-along-chainage = ao longo da estrada, estaca crescente
drawing-new-seal = bordo do revestimento novo
drawing-new-seal-over = bordo do revestimento novo, { $overlap } a mais
drawing-edge-of-seal = bordo do revestimento
drawing-centre-line = eixo
drawing-long-side-along = lado comprido ao longo da estrada
drawing-long-side-across = lado comprido em esquadria com a estrada
drawing-long-side-left = lado comprido virado { $angle }° à esquerda
drawing-long-side-right = lado comprido virado { $angle }° à direita
drawing-chainage-0 = estaca 0
drawing-trip = viagem { $trip }
drawing-not-today = hoje não
drawing-section = secção, largura sem escala
drawing-layer = camada { $layer }
drawing-loose = solta { $thickness }
drawing-seal = ligante e brita, abaulamento
drawing-seal-crown = ligante e brita, abaulamento { $crown }
drawing-overlap = sobreposição a toda a volta
drawing-overlap-by = sobreposição { $overlap } à volta
drawing-pattern = desde os cantos; longe dos bordos
drawing-pattern-last = última: { $pattern }
drawing-part-advance-warning = aviso prévio
drawing-part-taper = transição
drawing-part-buffer = espaço de segurança
drawing-part-work-space = zona de trabalho
drawing-part-downstream-taper = transição de saída
drawing-sign = sinal
drawing-cone = cone
drawing-flagger = sinalizador
drawing-shield-vehicle = veículo de proteção
drawing-on-road = em { $road }
drawing-into-road = { $distance } adentro
drawing-moved-by = movido { $distance }
drawing-work-zone = Zona de trabalho
drawing-work-zone-on = Zona de trabalho em { $road }
drawing-nothing-open = nada fica aberto
drawing-open = aberto { $width }
drawing-open-impassable = aberto { $width }: o tráfego não passa
drawing-moved = movido do lugar da regra
drawing-closed = fechado ao lado do trabalho
drawing-broken-length = comprimento não desenhado por inteiro
drawing-scale-whole = ao longo à escala, de través não
drawing-scale-core = do primeiro ao último cone à escala ao longo, o resto não
drawing-scale-none = sem escala: valem as distâncias
drawing-to-place = para { $place }
drawing-signs-counted = { $count ->
    [one] { $count } sinal
   *[other] { $count } sinais
}
drawing-flaggers-counted = { $count ->
    [one] { $count } sinalizador
   *[other] { $count } sinalizadores
}
drawing-shield-vehicles-counted = { $count ->
    [one] { $count } veículo de proteção
   *[other] { $count } veículos de proteção
}
drawing-no-devices = nada está na estrada
drawing-description = { $layout }. Planta, uma proposta: { $devices }. A zona de trabalho tem { $length } de comprido; ao lado ficam abertos { $width }. O tráfego da faixa em obra vai da esquerda para a direita. Cada coisa tem o seu número pela ordem de montagem.
