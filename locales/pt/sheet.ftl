# A pasta de trabalho impressa, e as unidades como na fita, na balança e na vareta

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
sheet-both = { $first } e { $second }
sheet-either = { $first } ou { $second }
sheet-range = { $low } a { $high }
sheet-percent = { $number } %
sheet-about = cerca de { $counted }
sheet-about-range = cerca de { $counted }, de { $low } a { $high }
sheet-until = até { $time }
sheet-page = página { $page } de { $pages }
sheet-footer = lengthsman { $version }, semente { $seed }
sheet-title = Pasta de trabalho, { $district }, { $date }

day-monday = segunda-feira
day-tuesday = terça-feira
day-wednesday = quarta-feira
day-thursday = quinta-feira
day-friday = sexta-feira
day-saturday = sábado
day-sunday = domingo
month-january = janeiro
month-february = fevereiro
month-march = março
month-april = abril
month-may = maio
month-june = junho
month-july = julho
month-august = agosto
month-september = setembro
month-october = outubro
month-november = novembro
month-december = dezembro
month-short-january = jan
month-short-february = fev
month-short-march = mar
month-short-april = abr
month-short-may = mai
month-short-june = jun
month-short-july = jul
month-short-august = ago
month-short-september = set
month-short-october = out
month-short-november = nov
month-short-december = dez
sheet-long-date = { $weekday }, { $day } de { $month } de { $year }
sheet-short-date = { $day } { $month }
sheet-overdue = { $day }, em atraso

wind-north = norte
wind-north-east = nordeste
wind-east = leste
wind-south-east = sudeste
wind-south = sul
wind-south-west = sudoeste
wind-west = oeste
wind-north-west = noroeste
sheet-left = esquerda
sheet-right = direita
sheet-centre = eixo
sheet-left-by = esq. { $distance }
sheet-right-by = dir. { $distance }

sheet-holes = { $count ->
    [one] { $count } buraco
   *[other] { $count } buracos
}
sheet-holes-in-cuts = { $cuts ->
    [one] { $holes } em 1 corte
   *[other] { $holes } em { $cuts } cortes
}
sheet-holes-counted-in-cuts = { $holes ->
    [one] 1 buraco em { $cuts } cortes
   *[other] { $holes } buracos em { $cuts } cortes
}
sheet-holes-in-one-cut = { $count ->
    [one] 1 buraco num corte, ver abaixo
   *[other] { $count } buracos num corte, ver abaixo
}
sheet-people = { $count ->
    [one] { $count } pessoa
   *[other] { $count } pessoas
}
sheet-devices = { $count ->
    [one] { $count } elemento
   *[other] { $count } elementos
}
sheet-cones-counted = { $count ->
    [one] { $count } cone
   *[other] { $count } cones
}
sheet-signs = sinais
sheet-cones = cones
sheet-flaggers = sinalizadores
sheet-shield-vehicles = veículos de proteção
sheet-flagger = sinalizador
sheet-flagger-station = posto de sinalizador
sheet-shield-vehicle = veículo de proteção
sheet-passes = { $count ->
    [one] { $count } passagem
   *[other] { $count } passagens
}
sheet-passes-vibrating = { $count } a vibrar
sheet-passes-then-vibrating = { $fixed } + { $vibrating } a vibrar

sheet-severity-none = sem classe
sheet-severity-low = baixa
sheet-severity-medium = média
sheet-severity-high = alta
sheet-severity-may-be-worse = { $now }, { $worse } a { $day }?
sheet-wetness-dry = seco
sheet-wetness-damp = húmido
sheet-wetness-wet = molhado
sheet-wetness-seepage = verte água
sheet-wetness-pumping = bombeia
sheet-good-base = base
sheet-good-water = água
sheet-good-binder = ligante
sheet-good-stone = brita
sheet-good-spoil = entulho

sheet-look-at-this = Veja isto antes de sair
sheet-alert-back-late = O turno acaba às { $end }: de volta até às { $back } em nove dias de dez, por isso as últimas paragens podem ficar para outro dia.
sheet-alert-no-patch = { $count ->
    [one] { $count } corte não é tapa-buraco e não está nesta pasta: pergunte ao engenheiro. Está na lista atrás desta folha.
   *[other] { $count } cortes não são tapa-buraco e não estão nesta pasta: pergunte ao engenheiro. Estão na lista atrás desta folha.
}
sheet-alert-at-stops = { $count ->
    [one] Paragem { $stops }: { $what }
   *[other] Paragens { $stops }: { $what }
}
sheet-alert-more = e mais { $count }: veja cada folha de zona antes de sair.
sheet-alert-too-narrow = só ficam abertos { $width }: o tráfego não pode passar pela obra. A pessoa autorizada decide como é desviado.
sheet-alert-closed = nada fica aberto: o tráfego não pode passar pela obra. A pessoa autorizada decide como é desviado.
sheet-alert-people = são precisas { $needed } pessoas, com os sinalizadores; a equipa tem { $people }.
sheet-alert-signs = são precisos { $needed } sinais, o depósito tem { $have }. Não comece sem eles.
sheet-alert-cones = são precisos { $needed } cones, o depósito tem { $have }. Não comece sem eles.
sheet-alert-overload = Viagem { $trip }: { $most } a bordo no máximo, o camião pode levar { $allowed }.

sheet-job-pack = Pasta de trabalho
sheet-nothing-no-hole = Nada a fazer hoje: nenhum buraco utilizável foi comunicado.
sheet-nothing-none-fits = { $count ->
    [one] Nada a fazer hoje: o único buraco comunicado não cabe na volta deste dia.
   *[other] Nada a fazer hoje: nenhum dos { $count } buracos comunicados cabe na volta deste dia.
}
sheet-no-daylight = sem luz do dia
sheet-fact-stops = paragens
sheet-fact-holes = buracos
sheet-fact-leave-depot = saída do depósito
sheet-fact-go-on-at = continua às
sheet-fact-back = volta
sheet-fact-back-tipped = volta, entulho despejado
sheet-fact-back-by = 9 em 10 dias, volta até
sheet-fact-shift = turno
sheet-fact-sun = nascer e pôr do sol
sheet-fact-driving = condução
sheet-fact-crew = equipa
sheet-fact-truck = camião
sheet-fact-plant = máquinas necessárias
sheet-fact-part-of = parte de
sheet-part-of-work-plan = um plano de obra
sheet-fact-left-out-overdue = de fora apesar do atraso
sheet-sprayer = espalhador
sheet-pouring-pot = regador de ligante
sheet-head-from = de
sheet-head-to = até
sheet-head-stop = parag.
sheet-head-what = o quê
sheet-head-drive = trajeto
sheet-to-yard = para { $yard }
sheet-back-to-depot = volta ao depósito
sheet-load-for-trip = carregar para a viagem { $trip }
sheet-wait = espera
sheet-break = pausa
sheet-tip-spoil = despejar o entulho
sheet-times-median = As horas contam com a mediana de cada reparação (P50): tantos dias correm mais tarde como mais cedo.
sheet-look-note = Uma verificação é uma paragem curta fora da faixa de rodagem: ninguém pisa a estrada e, onde não há lugar para parar, segue-se. Decide a norma local.
sheet-look-at = verificar a reparação em { $road }
sheet-from-the-shoulder = da berma, { $minutes }
sheet-looks-on-the-way = Verificações de reparações anteriores no caminho
sheet-head-earlier-repair = reparação anterior
sheet-head-found = constatado
sheet-look-holds = aguenta
sheet-look-worn = desgastada
sheet-look-failed = falhou
sheet-look-not-made = não verificada
sheet-look-mended = reparada em { $day }
sheet-look-after-opening = { $days } dias depois de aberta ao tráfego
sheet-look-found-worn = encontrada desgastada, verificada de novo após { $days } dias
sheet-look-mark-note = Lado: no sentido próprio da estrada, o da distância crescente. Desgastada: brita perdida, ligante à superfície, bordos abertos. Falhou, ou há um buraco ao lado: comunica-se como buraco novo. Não verificada: sem lugar seguro para parar, ou sem tempo.
sheet-learnt-more = Há mais { $count } em plan.json.
sheet-from-the-record = Do registo:
sheet-alt-district-map = Mapa das estradas do distrito com o depósito
sheet-alt-round-map = Mapa da volta: estradas, caminho percorrido, paragens numeradas

sheet-trip = { $count ->
    [one] Viagem { $trip }: paragem { $first }
   *[other] Viagem { $trip }: paragens { $first } a { $last }
}
sheet-trip-empty = Viagem { $trip }
sheet-on-truck = { $count ->
    [one] Necessário no camião: paragem { $first }
   *[other] Necessário no camião: paragens { $first } a { $last }
}
sheet-on-truck-empty = Necessário no camião
sheet-enough = chega: base { $base }, água { $water }, ligante { $binder }, brita { $stone }
sheet-enough-of-each = chega de cada um: { $chance }
sheet-enough-and-more-at = { $enough }; mais em { $places }
sheet-mass-of = { $mass } de { $payload }
sheet-mass-and-more = { $mass }, e o que mais levar
sheet-greatest-mass = massa máxima a bordo
sheet-spoil-back = entulho de volta { $volume }, { $mass }; com base, no máximo
sheet-head-compartment = compartimento ou tanque
sheet-head-load = o que carregar
sheet-head-volume = volume
sheet-head-mass = massa
sheet-head-room = lugar
sheet-head-how-full = enchimento
sheet-head-done = feito
sheet-head-on-road = na estrada
sheet-head-needed = precisa
sheet-head-have = há
sheet-head-out = fora
sheet-short = faltam { $count }
sheet-head-whole-day = o dia todo
sheet-head-as-reported = como avisado
sheet-total-base = base, solta
sheet-total-base-stock = base, do monte
sheet-total-water = água a juntar
sheet-total-binder = ligante, quente
sheet-total-stone = brita
sheet-total-spoil = entulho, solto
sheet-total-work = trabalho nos buracos
sheet-day-by-hand = O dia à mão:
sheet-suffices = A probabilidade de nada faltar o dia todo é { $chance }.
sheet-p10-p50-p90 = P10, P50, P90: da soma do dia, um, cinco, nove casos em dez ficam abaixo.

sheet-cautions = Cuidados
sheet-caution-traffic = Tráfego:
sheet-caution-traffic-text = nunca trabalhar fora do espaço fechado; roupa de alta visibilidade; uma saída; parar se faltar um elemento.
sheet-caution-hot-binder = Ligante quente:
sheet-caution-hot-binder-text = queima: luvas, viseira, mangas compridas; pele queimada sob água fria, ir ao médico, não arrancar o ligante.
sheet-caution-cutback = Vapor e fogo:
sheet-caution-cutback-text = o asfalto diluído liberta solvente: sem chama, sem fumar, sem bombear perto de ignição; extintor à mão.
sheet-caution-emulsion = Emulsão:
sheet-caution-emulsion-text = não a ferver, não a deixar gelar, nunca num tanque com outro ligante; olhos e pele cobertos.
sheet-caution-dust = Pó de sílica:
sheet-caution-dust-text = cortar com água ou com máscara feita para isso.
sheet-caution-services = Redes enterradas:
sheet-caution-services-text = perguntar e marcar antes de escavar; na dúvida, parar.
sheet-caution-vibration = Vibração, ruído:
sheet-caution-vibration-text = revezar-se no cilindro, na placa e no martelo; proteção auditiva.
sheet-caution-lifting = Cargas:
sheet-caution-lifting-text = duas pessoas ou uma máquina para o que for pesado; costas direitas.
sheet-caution-weather = Calor e frio:
sheet-caution-weather-text = água, sombra, pausas; cuidar uns dos outros.
sheet-caution-drains = Drenos e água:
sheet-caution-drains-text = cobrir as entradas; nem ligante, nem entulho, nem água de lavagem nos drenos.
sheet-cautions-usual = Estes são os cuidados habituais, não todos. Primeiro vêm os códigos locais, as fichas de segurança e as pessoas formadas e autorizadas para o trabalho.
sheet-cautions-today = Cuidados com os materiais e as máquinas de hoje
sheet-proposal = A disposição é uma proposta.
sheet-proposal-decides = Decidem o código local de sinalização e a pessoa autorizada por ele.
sheet-sign-crew-leader = chefe de equipa
sheet-sign-authorised = pessoa autorizada para a sinalização
sheet-sign-date-time = data, hora

sheet-left-out = De fora:
sheet-input = Dados:
sheet-details-behind = Pormenores atrás desta folha.
sheet-left-out-of-work-plan = Esta pasta é uma volta de um plano de obra; o que nenhuma volta faz está no seu work-plan.json.
sheet-left-out-none = Todos os buracos utilizáveis estão nesta pasta.
sheet-left-out-summary = { $count ->
    [one] { $count } buraco fora desta pasta
   *[other] { $count } buracos fora desta pasta
}, { $overdue ->
    [0] nenhum em atraso
   *[other] { $overdue } em atraso
}: { $reasons }.
sheet-left-out-less-urgent = menos urgentes do que o que enche o dia
sheet-left-out-not-worth = não valem o tempo que levam
sheet-left-out-no-window = nenhum intervalo do dia chega
sheet-left-out-exceeds-shift = mais longos que o turno
sheet-left-out-exceeds-truck = mais do que o camião leva
sheet-left-out-unreachable = nenhuma estrada leva lá e de volta
sheet-left-out-not-a-patch = não são tapa-buraco: pergunte ao engenheiro
sheet-left-out-no-crew = nenhuma equipa tem as máquinas
sheet-left-out-as-asked = deixados de fora a pedido
sheet-left-out-off-roads = fora das estradas deste distrito
sheet-left-out-other = { $count } por outras razões
sheet-reason-of-its-own = cada um pela sua própria razão
sheet-more-left-out = e mais { $count }, menos urgentes; todos em plan.json
sheet-more-problems = e mais { $count }, todos em plan.json
sheet-and-more = e mais { $count }
sheet-input-of-work-plan = O que estava errado nos dados também lá está.
sheet-input-fine = Nada estava errado nos dados.
sheet-input-summary = { $count ->
    [one] { $count } problema nos dados
   *[other] { $count } problemas nos dados
}, { $refused ->
    [0] nenhum recusado
    [one] 1 registo recusado
   *[other] { $refused } registos recusados
}.
sheet-signs-to-take = Sinais a levar, cada um com o seu suporte
sheet-not-a-patch = Não é tapa-buraco: pergunte ao engenheiro
sheet-not-in-pack = Fora desta pasta, o mais urgente primeiro (dia a negrito: em atraso; dia com ?: pode piorar a partir daí)
sheet-what-was-wrong = O que estava errado nos dados
sheet-head-hole = buraco
sheet-head-road = estrada
sheet-head-severity = gravidade
sheet-head-mend-by = prazo
sheet-head-work = trabalho
sheet-head-why-no-patch = onde, porque não é tapa-buraco, o que um pediria (P90)
sheet-head-where = onde
sheet-head-record = registo
sheet-head-wrong = o que estava errado; o que estaria certo
sheet-engineer-figures = corte { $area }, até { $depth } de fundo; base { $base }, entulho { $spoil }, até { $work } de trabalho

sheet-fact-latitude = latitude e longitude
sheet-fact-work-space = zona de trabalho na estaca
sheet-fact-heads = a faixa segue para
sheet-fact-speed = limite de velocidade
sheet-fact-lanes = faixas
sheet-lanes-sealed = { $lanes }, revestidos { $width }
sheet-fact-keeps = circula-se pela
sheet-fact-left-open = fica aberto
sheet-fact-duration-class = classe de duração
sheet-fact-set-up = montar, recolher
sheet-fact-busiest-hour = hora de ponta
sheet-fact-shared = partilhada
sheet-chainage-rule = A estaca conta desde { $from } para { $towards }.
sheet-before-place = { $distance } antes de { $place }
sheet-past-place = { $distance } depois de { $place }
sheet-before-place-range = { $near } a { $far } antes de { $place }
sheet-past-place-range = { $near } a { $far } depois de { $place }
sheet-queue-clears = { $flow } veículos/h: paragem { $stop }, esperam { $count } a { $vehicles }, fila de { $back }
sheet-queue-none = { $flow } veículos/h, passam { $most } veículos/h: sem fila
sheet-queue-grows = { $flow } veículos/h, passam { $most } veículos/h: cresce
sheet-queue-unknown = contagem desconhecida, serve até { $most } veículos/h
sheet-sharing-saves = { $holes }, uma zona: poupa { $saved }
sheet-sharing-saves-and-takes = { $holes }, uma zona: poupa { $saved }, leva mais { $more }
sheet-sharing-takes = { $holes }, uma zona: leva mais { $more }
sheet-sharing-as-long = { $holes }, uma zona: o mesmo que em separado
sheet-layout-source = Disposição: { $source }.
sheet-placing = Montar
sheet-removing = Recolher
sheet-in-this-order = , por esta ordem
sheet-right-left = dir., esq.: como o condutor vê.
sheet-head-number = n.º
sheet-head-device = elemento
sheet-head-for = para
sheet-head-from-work = desde a zona de trabalho
sheet-head-side = lado, do eixo
sheet-head-step = passo
sheet-head-in = dentro
sheet-head-count-back = recontagem
sheet-head-list = lista
sheet-traffic-our-lane = a nossa faixa
sheet-traffic-oncoming = contrário
sheet-traffic-joining = que entra
sheet-on-side-road = em { $road }, a { $distance } do seu cruzamento na { $junction }
sheet-spot-before = { $distance } antes
sheet-spot-past = { $distance } depois
sheet-spot-inside = { $distance } adentro
sheet-spot-at-start = no seu começo
sheet-spot-at-end = no seu fim
sheet-spot-its-start = o seu começo
sheet-spot-its-end = o seu fim
sheet-spot-whole = em todo o comprimento
sheet-spot-between = de { $from } até { $to }
sheet-every = a cada { $distance }
sheet-apart = separados { $range }
sheet-side-by-side = lado a lado
sheet-drive = conduzir { $distance }
sheet-walk = andar { $distance }
sheet-turn = { $count ->
    [one] inverter a marcha
   *[other] inverter a marcha { $count } vezes
}
sheet-way-time = { $way }: { $time }
sheet-cuts-in-zone = Cortes nesta zona
sheet-remarks-behind = { $count ->
    [one] { $count } observação na página seguinte: leia-a antes de montar seja o que for.
   *[other] { $count } observações na página seguinte: leia-as antes de montar seja o que for.
}
sheet-remarks-on-zone = Observações sobre a zona de trabalho
sheet-alt-place-map = Mapa das redondezas com o lugar do trabalho
sheet-alt-zone = Planta da zona de trabalho com todos os elementos e distâncias

sheet-names-and-more = { $names } e mais { $count }
sheet-size-corners = { $size }, { $corners } cantos
sheet-size-deep = { $size }, { $depth } de fundo
sheet-outline = contorno
sheet-fact-chainage = estaca
sheet-fact-place = lugar
sheet-fact-reported = avisado
sheet-fact-mend-by = prazo
sheet-fact-work = trabalho
sheet-fact-diagonals = diagonais
sheet-fact-severity = gravidade
sheet-fact-compact-with = compactar com
sheet-place-lane = faixa
sheet-place-wheel-path = rodeira
sheet-place-edge = bordo
sheet-place-shoulder = berma
sheet-place-centre = eixo
sheet-holes-of-one-cut = { $count } buracos num corte: { $sizes }
sheet-so-long = { $range } de comprido
sheet-so-wide = { $range } de largo
sheet-so-deep = { $range } de fundo
sheet-reported-often = { $name } avisado { $count } vezes: { $reports }
sheet-reported-often-since = { $name } avisado { $count } vezes, primeiro a { $first }: { $reports }
sheet-reports-more = mais { $count } em plan.json
sheet-by-hand = À mão:
sheet-head-quantity = quantidade
sheet-head-p10-to-p90 = P10 a P90
sheet-head-how = como se calcula
sheet-head-how-metric = como se calcula, em métrico
sheet-quantity-cut-area = corte, área
sheet-quantity-cut-length = corte, comprimento a serrar
sheet-quantity-depth = fundo da escavação
sheet-quantity-layers = camadas
sheet-quantity-layer-compacted = uma camada, compactada
sheet-quantity-layer-loose = uma camada, solta
sheet-quantity-base-compacted = base, compactada, abaulada
sheet-quantity-base-loose = base, solta a colocar
sheet-quantity-base-dry = base, massa seca
sheet-quantity-base-stock = base, do monte
sheet-quantity-water = água a juntar
sheet-quantity-water-to-dry = água a secar antes
sheet-quantity-passes = passagens
sheet-quantity-rolling = cilindro, todas as camadas
sheet-quantity-seal-area = revestimento novo, área
sheet-quantity-binder-rate = taxa de ligante
sheet-quantity-binder-hot = ligante, quente
sheet-quantity-stone-rate = taxa de brita
sheet-quantity-stone = brita
sheet-quantity-stone-loose = brita, solta
sheet-quantity-spoil-loose = entulho, solto
sheet-quantity-spoil-mass = entulho, massa
sheet-passes-how = { $lanes ->
    [one] cada camada, { $lanes } faixa de largura; { $compactor }
   *[other] cada camada, { $lanes } faixas de largura; { $compactor }
}
sheet-container = { $count } × { $name } de { $volume }
sheet-containers = { $containers }; sobram { $rest }
sheet-compactor-last-layer = { $machine }, última camada { $last }
sheet-head-stage = etapa
sheet-head-time = tempo
sheet-head-look = veja, assinale; anote o que mediu
sheet-stage-traffic-control-out = montar a sinalização
sheet-stage-mark-out = marcar
sheet-stage-cut-out = cortar e limpar
sheet-stage-fill = encher
sheet-stage-compact = compactar
sheet-stage-seal = selar
sheet-stage-clean-up = limpar
sheet-stage-traffic-control-in = recolher a sinalização
sheet-check-stands = está como na folha da zona
sheet-check-driven = percorrida e vista
sheet-check-services = redes marcadas
sheet-check-cleaned = buraco limpo, visto
sheet-check-lines = linhas retas, em esquadria, em revestimento são
sheet-check-outwards = do meio para fora
sheet-check-upright = lados a prumo em 4 sítios
sheet-check-bottom = fundo firme e plano
sheet-check-spoil = entulho no camião
sheet-check-falls-apart = na mão: desfaz-se, juntar água
sheet-check-keeps-shape = mantém a forma
sheet-check-oozes = verte, espalhar e secar
sheet-check-loose = { $thickness } solta por camada
sheet-check-compactor = com { $machine }
sheet-check-edges = bordos livres do cilindro
sheet-check-corners = primeiro os cantos, depois para dentro
sheet-check-passes = cada camada { $passes }
sheet-check-proud = última camada saliente { $proud }
sheet-check-clean-dry = limpo e seco
sheet-check-binder-at = ligante a { $temperature }
sheet-check-stone = brita logo, uma camada
sheet-check-bedded = cilindrado até assentar
sheet-check-swept = varrido: estrada, berma, drenos
sheet-check-swept-again = de novo após { $first }, { $second } h
sheet-check-tools = ferramentas e material contados
sheet-check-reverse = ordem inversa
sheet-check-count = conta dentro = conta fora
sheet-check-opened = aberto { $wait } após a brita, { $speed } durante { $hours } h
sheet-field-time = hora
sheet-field-long = comprido
sheet-field-wide = largo
sheet-field-photo = foto
sheet-field-depth-found = fundo achado
sheet-field-moisture = humidade
sheet-field-percent = %
sheet-field-water = água
sheet-field-layer = camada { $layer }
sheet-field-passes = passagens { $layer }:
sheet-field-proud = saliente
sheet-field-binder = ligante
sheet-field-stone = brita
sheet-field-crown = abaulamento
sheet-if-deeper = Se o buraco for mais fundo
sheet-head-depth-found = fundo
sheet-head-layers = camadas
sheet-head-base = base
sheet-head-loose = solta
sheet-head-water = água
sheet-cautions-behind = Cuidados, por inteiro atrás da capa:
sheet-remarks = Observações
sheet-alt-cut = Planta do corte com cotas
sheet-alt-section = Secção com camadas
sheet-alt-pattern = Ordem de compactação, desde os cantos

# O que o registo ensina
sheet-learnt-growth = o plano conta agora escavar { $more ->
    [more] mais
   *[less] menos
  } { $percent }
sheet-learnt-base = o plano carrega agora { $more ->
    [more] mais
   *[less] menos
  } { $percent } de base
sheet-learnt-water = o plano carrega agora { $more ->
    [more] mais
   *[less] menos
  } { $percent } de água
sheet-learnt-binder = o plano carrega agora { $more ->
    [more] mais
   *[less] menos
  } { $percent } de ligante
sheet-learnt-cover-stone = o plano carrega agora { $more ->
    [more] mais
   *[less] menos
  } { $percent } de brita
sheet-learnt-time = o plano dá agora { $more ->
    [more] mais
   *[less] menos
  } { $percent } de tempo
sheet-learnt-repairs-district = { $count ->
    [one] 1 reparação do distrito
   *[other] { $count } reparações do distrito
}
sheet-learnt-repairs-there = { $count ->
    [one] 1 reparação nesse local
   *[other] { $count } reparações nesse local
}
sheet-learnt-repairs-crew = { $count ->
    [one] 1 reparação dessa equipa
   *[other] { $count } reparações dessa equipa
}
sheet-learnt-took = em { $repairs } se gastou { $times } vezes o previsto
sheet-learnt-turned-out = em { $repairs } se escavou { $times } vezes o que as regras esperam
sheet-learnt-time-taken = em { $repairs } se levou { $times } vezes o tempo previsto
sheet-learnt-believed = { $median } (de { $low } a { $high })
sheet-learnt-district = { $does }, porque { $took }; ponderado com as regras, { $believed }
sheet-learnt-road = { $does } em { $road }, porque { $took }; ponderado com as outras, { $believed }
sheet-learnt-crew = { $does } para { $crew }, porque { $took }; ponderado com as outras, { $believed }
sheet-learnt-kept = { $sentence }; limitado a entre { $least } e { $most }
sheet-roads-motorway = autoestradas
sheet-roads-trunk = vias rápidas
sheet-roads-primary = estradas principais
sheet-roads-secondary = estradas secundárias
sheet-roads-tertiary = estradas terciárias
sheet-roads-unclassified = estradas não classificadas
sheet-roads-residential = ruas residenciais
sheet-roads-service = vias de serviço
sheet-roads-track = caminhos
sheet-roads-with-shoulder = { $roads } com berma
sheet-roads-without-shoulder = { $roads } sem berma
