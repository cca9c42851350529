# O telefone da equipe.
crew-nav = Partes do aplicativo da equipe
crew-nav-round = Ronda
crew-nav-new-hole = Buraco novo
crew-nav-nearby = Rever
crew-nav-queue = Fila
crew-back = Voltar
crew-nothing-here = Não há nada aqui.
crew-today = Hoje
crew-yes = Sim
crew-no = Não
crew-done = feito
crew-note = Observação
crew-less = { $what }: menos
crew-more = { $what }: mais
crew-larger = { $what }: maior
crew-smaller = { $what }: menor
crew-minutes = { $n } min
crew-planned-is = Previsto: { $value }
crew-spread = (8 em 10: de { $low } a { $high })
crew-install-words = Ponha o aplicativo na tela inicial: assim ele abre sem sinal como qualquer outro.
crew-install = Instalar
crew-not-now = Agora não

# what is queued
crew-queue = O que foi comunicado
crew-badge-sent = Tudo enviado
crew-badge-queued = { $count } na fila
crew-badge-trouble-queued = { $trouble }, { $count } na fila
crew-badge-refused = { $count } recusado(s)
crew-queue-sum = Em espera: { $waiting }. Fotos em espera: { $photos }. Recusados: { $refused }.
crew-queue-last = Em dia com o escritório às { $at }.
crew-queue-empty = Ainda não se comunicou nada neste telefone.
crew-sync-now = Enviar e receber agora
crew-sync-running = Enviando e recebendo
crew-told-waiting = Na fila
crew-told-sent = Enviado
crew-told-refused = Recusado
crew-refused-why = O servidor diz:
crew-trouble-says = Diz:
crew-put-right = Corrigir
crew-tell-again = Comunicar de novo
crew-drop = Descartar
crew-drop-sure = Sim, descartar de vez
crew-withdraw = Foi engano
crew-withdraw-sure = Sim, retirar
crew-withdrawn = Retirado
crew-sent-count = Enviados: { $count }
crew-photos = Fotos
crew-photo = Tirar uma foto
crew-photo-of = Foto: { $note }
crew-photo-no-room = Não há espaço para a foto neste telefone. Apague outra coisa e tire-a de novo.
crew-photos-kept = { $count ->
    [one] { $count } foto guardada
   *[other] { $count } fotos guardadas
  }
crew-kind-hole-reported = Buraco novo
crew-kind-hole-measured = Buraco medido
crew-kind-zone-opened = Zona aberta
crew-kind-zone-closed = Zona fechada
crew-kind-hole-cut = Recortado
crew-kind-layer-placed = Camada colocada
crew-kind-sealed = Selado
crew-kind-opened-to-traffic = Aberto ao trânsito
crew-kind-inspected = Reparo revisto
crew-kind-failed = Reparo falhou
crew-kind-stock-moved = Entulho no caminhão
crew-kind-stock-counted = Estoque contado
crew-kind-time-booked = Tempo anotado
crew-kind-photo-taken = Foto
crew-kind-corrected = Correção
crew-kind-signed = Assinado

# the round
crew-which = Qual equipe?
crew-no-rounds = Este telefone não conhece nenhuma ronda prevista para a equipe. Com sinal, ele olha de novo sozinho.
crew-no-files = Os desenhos e listas deste dia não estão no telefone. Mostra-se o que consta do registro; com sinal o resto vem sozinho, se o escritório o fez.
crew-next-site = Local { $n } de { $of }
crew-day-done = Todos os locais deste dia estão feitos.
crew-sites = Locais
crew-sites-count = { $count ->
    [one] { $count } local
   *[other] { $count } locais
  }
crew-holes-count = { $count ->
    [one] { $count } buraco
   *[other] { $count } buracos
  }
crew-devices-count = { $count ->
    [one] { $count } dispositivo
   *[other] { $count } dispositivos
  }
crew-layers-count = { $count ->
    [one] { $count } camada
   *[other] { $count } camadas
  }
crew-drive = Percurso { $way }, { $time }; saída às { $from }
crew-other-days = Outros dias
crew-daylight = Nascer do sol { $sunrise }, pôr do sol { $sunset }
crew-sketch = O percurso do dia com seus locais
crew-site-planned = a fazer
crew-site-open = em obra
crew-site-mended = sinais ainda fora
crew-site-done = feito
crew-load = Carga
crew-trip = Viagem { $n }
crew-suffices = Chance de ser suficiente: { $chance }
crew-load-devices = { $signs } placas, { $cones } cones
crew-load-planned-only = O previsto para os buracos, sem margem.
crew-nearest = { $what }: mais em { $place }, a { $time }
crew-nearest-short = { $what }: mais em { $place }
crew-changed = O plano mudou
crew-changed-seen = Visto
crew-change-added = Novo: { $road }
crew-change-removed = Retirado: { $road }
crew-change-moved = { $road } agora é em { $day }
crew-change-amounts = { $road }: outras quantidades
crew-change-order = A ordem dos locais é outra

# a site
crew-site = Local
crew-site-gone = Isto já não está nas rondas da equipe.
crew-where = Onde
crew-chainage = A { $way } de { $from }, no sentido de { $towards }
crew-windows = Pode-se estorvar o trânsito das
crew-zone = Zona de obra
crew-zone-none = Nenhum esquema de sinalização foi previsto.
crew-zone-proposal = O esquema é uma proposta. Decidem a norma local de sinalização e a pessoa autorizada por ela.
crew-zone-opened-by = Aberta por { $who } às { $at }; dispositivos fora: { $count }
crew-zone-closed-by = Fechada por { $who } às { $at }; dispositivos recolhidos: { $count }
crew-zone-not-open = A zona não está aberta. Ninguém entra na faixa antes de os sinais estarem postos.
crew-remarks = Observações sobre o esquema
crew-repairs = Buracos
crew-hole-n = Buraco { $n }
crew-next-hole = Próximo buraco
crew-next-stop = Próximo local
crew-to-site = Ao local
crew-drawing-place = Onde fica
crew-drawing-zone = Zona de obra
crew-drawing-cut = Recorte
crew-drawing-section = Seção
crew-drawing-pattern = Ordem das passadas

# devices
crew-devices = Dispositivos
crew-devices-out = Colocar dispositivos
crew-devices-back = Recolher dispositivos
crew-turn-out = Colocar
crew-turn-back = Recolher
crew-caution-out = Trânsito em circulação. Roupa de alta visibilidade, de frente para o trânsito, com espaço para sair. Faltando um dispositivo, pare.
crew-caution-back = Trânsito em circulação. Na ordem inversa da colocação: o que protege sai por último.
crew-count-out = Colocados: { $n } de { $of }
crew-count-back = Recolhidos: { $n } de { $of }
crew-step-opposing-advance = Placas de aviso, sentido oposto
crew-step-advance = Placas de aviso, nossa faixa
crew-step-joining = Placas nas vias que desembocam
crew-step-joining-station = Bandeirinhas nas vias que desembocam
crew-step-opposing-station = Bandeirinha, sentido oposto
crew-step-station = Bandeirinha, nossa faixa
crew-step-lane = A faixa, no sentido do trânsito
crew-step-end-of-opposing = Placa de fim, sentido oposto
crew-step-end-of-work = Placa de fim, nossa faixa
crew-step-to-the-work = Até a obra
crew-drive-on = dirigir { $way }
crew-walk = andar { $way }
crew-turn-round = dar a volta
crew-before-work = { $way } antes da obra
crew-at-work = junto à obra
crew-past-work = { $way } depois da obra
crew-our-lane = nossa faixa
crew-oncoming = sentido oposto
crew-put-out = Colocado: { $what }
crew-taken-in = Recolhido: { $what }
crew-devices-planned = Dispositivos previstos: { $count }
crew-counted-out = Dispositivos colocados
crew-counted-back = Dispositivos recolhidos
crew-went-out = Foram colocados: { $count }
crew-agreed = A pessoa autorizada percorreu a zona e concorda
crew-agreed-hint = Sem isso a zona não está aberta.
crew-not-all-out = Não marcados: { $count }
crew-open-zone = A zona está aberta
crew-open-again = Comunicar de novo a abertura
crew-fewer-back = { $count ->
    [one] { $count } dispositivo ainda está na via
   *[other] { $count } dispositivos ainda estão na via
  }
crew-looked-for = Percorremos a zona e procuramos
crew-close-zone = A zona está fechada
crew-close-missing = Fechar, faltam: { $count }

# a repair
crew-repair = Reparo
crew-stages = Etapas
crew-stage-traffic-out = Colocar a sinalização
crew-stage-mark-out = Marcar
crew-stage-cut = Recortar
crew-stage-fill = Encher
crew-stage-compact = Compactar
crew-stage-seal = Selar
crew-stage-clean-up = Limpar e abrir
crew-stage-traffic-in = Recolher a sinalização
crew-how = Como
crew-stage-back = Etapa anterior
crew-next-stage = Próxima etapa
crew-tell-cut = Comunicar: recortado
crew-tell-compact = Comunicar: camada { $n } colocada
crew-tell-seal = Comunicar: selado
crew-tell-clean-up = Comunicar: aberto ao trânsito
crew-cautions = Cuidados
crew-checks = Verificações
crew-check-agreed = O esquema está combinado com a pessoa autorizada
crew-check-seen-through = Percorrido uma vez: todas as placas se veem
crew-check-vest = Roupa de alta visibilidade vestida
crew-check-cleaned = Buraco limpo e examinado
crew-check-sound = Linhas em pavimento são, no máximo a 100 mm do buraco
crew-check-straight = Linhas retas, cantos em esquadro
crew-check-services = Sem cabos nem tubos por baixo, ou estão marcados
crew-check-centre-out = Cavado do centro para fora
crew-check-spoil-off = Entulho no caminhão; nada na pista, no acostamento nem perto de um bueiro
crew-check-same-kind = Base do mesmo tipo da via
crew-check-spread = Espalhada por igual, até os cantos
crew-check-edges = Bordas do recorte protegidas do rolo
crew-check-corners-first = Dos cantos para o centro
crew-check-proud = A última camada fica um pouco acima da pista
crew-check-swept = Superfície varrida e limpa
crew-check-overlap = O ligante cobre 80 mm do pavimento são
crew-check-one-layer = Uma só camada de brita, logo em seguida
crew-check-bedded = Rolado até a brita assentar bem
crew-check-swept-up = Varrido; nada solto na pista
crew-check-drains = Acostamento e bueiros limpos
crew-check-tools = Ferramentas e sobras de material contadas
crew-check-reverse = Dispositivos recolhidos na ordem inversa
crew-check-nothing-left = Percorrido uma vez: nada ficou
crew-cut-length = Comprimento do recorte, ao longo da via
crew-cut-width = Largura do recorte, através da via
crew-area-is = Área: { $area }
crew-depth-planned = Profundidade prevista
crew-depths = Profundidade em vários pontos
crew-depth-n = Profundidade { $n }
crew-depth-another = Mais um ponto
crew-deeper-than-planned = Mais fundo que o previsto: { $deepest } em vez de { $planned }. Veja o que é preciso agora.
crew-bigger = É maior que o previsto
crew-bottom-firm = O fundo está firme?
crew-bottom-soft = Cave até solo firme ou pergunte ao engenheiro. Um tapa-buraco em solo mole afunda.
crew-sides-upright = Os lados estão verticais e firmes?
crew-wetness = Quanta água há por baixo?
crew-wetness-dry = seco
crew-wetness-damp = úmido
crew-wetness-wet = molhado
crew-wetness-seepage = água infiltrando
crew-wetness-pumping = o trânsito bombeia água
crew-water-below = A água vem de algum lugar. Avise o escritório: sem drenagem o reparo não dura.
crew-spoil = Entulho retirado
crew-in-counts = Contar em { $plural }
crew-in-measures = Anotar a medida
crew-layer-of = Camada { $n } de { $of }
crew-layer-n = Camada { $n }
crew-layer-another = Mais uma camada
crew-loose-thickness = Espalhar { $loose } solto; fica com { $firm }
crew-moisture = Um punhado, apertado
crew-moisture-falls-apart = desmancha
crew-moisture-falls-apart-do = seco demais: juntar água
crew-moisture-keeps-shape = mantém a forma
crew-moisture-keeps-shape-do = certo
crew-moisture-oozes = escorre
crew-moisture-oozes-do = molhado demais: espalhar e deixar secar
crew-base-used = Base usada nesta camada
crew-water-used = Água juntada a esta camada
crew-base-whole = Base para o buraco todo, solta
crew-water-whole = Água para o buraco todo
crew-passes-still = Passadas sem vibração
crew-passes-vibrating = Passadas com vibração, ou de placa ou soquete
crew-layer-thickness = Espessura compactada
crew-caution-binder = O ligante queima: protetor facial, luvas, mangas compridas, água fresca à mão. Nenhuma chama perto do vapor. Decide a ficha de segurança.
crew-surface-dry = A superfície está seca?
crew-surface-wet = Não sele superfície molhada: o ligante não pega.
crew-binder = Ligante, grau ou produto
crew-binder-hint = Como está no tambor.
crew-binder-used = Ligante usado, como espargido
crew-binder-whole = Ligante, como espargido
crew-stone-used = Brita usada
crew-stone-whole = Brita
crew-sealed-area = Área selada
crew-crown = Altura acima da pista
crew-surface-temperature = Temperatura da superfície
crew-opening-after = Primeiro trânsito não antes de { $time } após a última brita
crew-opening-from = Primeiro trânsito a partir das { $at } (em { $time })
crew-opening-now = Primeiro trânsito desde as { $at }: se nenhuma pedra girar sob uma roda esterçada
crew-opening-too-cold = Mais frio que a tabela do plano. Pergunte antes de selar ou abrir.
crew-opening-row = desde { $from }: { $time }
crew-opening-slow = No máximo { $speed }/h durante { $hours } h. Decide a pessoa autorizada.
crew-opened-by = Aberto ao trânsito por { $who } às { $at }
crew-sign = Tempo e assinatura
crew-time-minutes = Minutos neste reparo
crew-since-begun = { $n } min desde o começo neste telefone
crew-people = Pessoas
crew-unticked = Verificações não marcadas: { $count }
crew-sign-now = Respondo por isto: { $name }
crew-signed-by = Assinado por { $who }, { $at }
crew-repair-planned = previsto
crew-repair-cut-out = recortado
crew-repair-filling = enchendo
crew-repair-sealed = selado
crew-repair-open = aberto ao trânsito
crew-repair-failed = falhou

# bigger than planned
crew-depth-now = Profundidade agora
crew-measure-photo = Medir numa foto
crew-layers-now = { $count ->
    [one] { $count } camada de { $thickness }
   *[other] { $count } camadas de { $thickness } cada
  }
crew-material = Material
crew-now-needs = Agora precisa
crew-more-than-planned = Ante o plano
crew-good-base = Base, solta
crew-good-water = Água
crew-good-binder = Ligante
crew-good-cover-stone = Brita
crew-good-spoil = Entulho
crew-truck-enough = Pelo plano o caminhão leva o bastante, se nada mais gastou a mais.
crew-truck-short = Pelo plano falta no caminhão:
crew-beyond-table = Mais fundo que a tabela do plano ({ $last }). As quantidades são proporcionais à profundidade: uma estimativa. Pare e pergunte ao escritório.
crew-bigger-how = Calculado neste telefone com a linha do plano para { $row }, em proporção à área ({ $area } em vez de { $planned }). O escritório refaz o plano.
crew-bigger-no-plan = A tabela do plano não está neste telefone: aqui não se calculam camadas nem quantidades. Comunique as medidas; o escritório calcula.
crew-ask-replan = Comunicar e pedir novo plano
crew-replan-waiting = O pedido está na fila; sai com o próximo sinal.
crew-replan-sent = O escritório tem o pedido.
crew-replan-refused = O pedido foi recusado. Veja a fila.

# a new hole, an older repair
crew-caution-stop = Pare só onde for seguro. Ninguém na via sem sinalização.
crew-here = Este telefone sabe onde está com margem de { $accuracy }.
crew-here-looking = Procurando onde este telefone está.
crew-here-denied = Este telefone não pode dizer onde está. Permita no navegador ou escreva o lugar.
crew-here-none = Este telefone não sabe onde está. Escreva o lugar.
crew-here-taken = Tomado do telefone, com margem de { $accuracy }
crew-take-here = O buraco é aqui
crew-lat = Latitude
crew-lon = Longitude
crew-hole-length = Comprimento, ao longo da via
crew-hole-width = Largura, através da via
crew-hole-depth = Maior profundidade
crew-lane-position = Onde, através da via?
crew-lane-lane = na faixa, entre as trilhas de roda
crew-lane-wheel-path = numa trilha de roda
crew-lane-edge = na borda do tratamento
crew-lane-shoulder = no acostamento
crew-lane-centre = no eixo
crew-place-first = Falta o lugar
crew-tell-hole = Comunicar o buraco
crew-hole-told = Comunicado. Fica neste telefone e é enviado quando houver sinal.
crew-holes-told = Comunicados neste telefone
crew-nearby-words = Reparos feitos, o mais próximo primeiro. Veja como aguentam.
crew-nearby-none = Este telefone não conhece nenhum reparo feito.
crew-inspect = Rever um reparo
crew-found = O que se vê?
crew-found-holds = Aguenta
crew-found-holds-hint = liso, fechado, brita no lugar
crew-found-worn = Aguenta mas desgasta
crew-found-worn-hint = brita perdida, ligante em cima, bordas abertas
crew-found-failed = Falhou
crew-found-failed-hint = de novo um buraco: é comunicado também como novo
crew-tell-found = Comunicar o que se viu

# told differently
crew-differ = Comunicado diferente em dois telefones
crew-differ-words = Conversem e meçam de novo; quem comunica outra vez corrige.
crew-differ-counts = Vale: { $value }, { $who }
crew-differ-other = Comunicado diferente: { $value }, { $who }
crew-field-area-m2 = Área recortada
crew-field-depths-mm = Profundidades
crew-field-bottom-firm = Fundo firme
crew-field-sides-upright = Lados verticais
crew-field-wetness = Água
crew-field-zone = Zona
crew-field-thickness-mm = Espessura
crew-field-base-loose-m3 = Base, solta
crew-field-water-l = Água
crew-field-moisture = Umidade na mão
crew-field-passes-still = Passadas sem vibração
crew-field-passes-vibrating = Passadas com vibração
crew-field-binder-l = Ligante
crew-field-binder = Produto do ligante
crew-field-cover-stone-m3 = Brita
crew-field-sealed-area-m2 = Área selada
crew-field-crown-mm = Altura acima da pista
crew-field-dry = Superfície seca
crew-field-devices-out = Dispositivos colocados
crew-field-devices-in = Dispositivos recolhidos
crew-field-position = Lugar
crew-field-road = Via
crew-field-layout = Esquema
crew-field-stretches = Trechos
crew-field-round = Ronda

# whose is what on the phone, and its room
crew-queue-others = { $count ->
    [one] { $count } registo de { $who } espera neste telefone. É enviado quando essa pessoa entrar nele.
   *[other] { $count } registos de { $who } esperam neste telefone. São enviados quando essa pessoa entrar nele.
  }
crew-room = Espaço neste telefone
crew-room-taken = { $taken } ocupados de { $of }.
crew-room-kept = O navegador conserva-o, mesmo quando lhe falta espaço.
crew-room-not-kept = O navegador pode apagá-lo quando lhe faltar espaço. Ponha a aplicação no ecrã inicial ou peça ao navegador que o conserve.
crew-room-ask = Pedir ao navegador que o conserve
crew-room-denied = O navegador não aceitou. Ponha a aplicação no ecrã inicial e peça outra vez.
crew-room-goes = O que o escritório já tem sai daqui sozinho: as fotografias após { $photo ->
    [one] um dia
   *[other] { $photo } dias
  } (fica uma imagem pequena), o resto após { $sent } dias, desenhos e listas { $file } dias depois da sua ronda. O que espera ou não foi aceite fica.

crew-photo-hole = Pela foto: o buraco tem { $area } ± { $error }.
crew-photo-cut = Corte proposto: { $area }, { $length } por { $width }. O encarregado olha o buraco e decide.
crew-photo-depth = Indique a profundidade para que se proponha um corte.
crew-photo-no-signal = Sem sinal: o contorno fica guardado e o corte é proposto quando houver sinal.
crew-photo-not-signed-in = Entre na sua conta para que se proponha um corte.

# reparos anteriores a rever no caminho
crew-look = Rever um reparo anterior
crew-look-open = por rever
crew-look-passed = não revisto
crew-look-along = a { $way } do início da estrada
crew-look-why = Motivo:
crew-look-pass = Sem lugar seguro para parar
crew-look-was-passed = Não revisto: não havia lugar seguro para parar. Nada foi comunicado; o escritório planeja de novo.
crew-look-again-on-list = Pôr de volta na lista
crew-caution-look = Pare fora da pista, do lado do reparo. Cuidado com o trânsito ao descer; ninguém pisa na pista. Sem lugar seguro, siga em frente. Decide a norma local de sinalização.
crew-done-there = O que foi feito ali
crew-done-there-unknown = O que foi feito ali não está neste telefone.
crew-layers = Camadas

# o que a equipe vê em volta do trabalho
crew-not-told = Não dito
crew-drainage = Como a água sai da pista aqui?
crew-drainage-hint = Não é obrigatório. Se houver vários: o pior.
crew-drainage-ditch-works = valeta funciona
crew-drainage-kerb-and-gully = meio-fio e boca de lobo
crew-drainage-ditch-blocked = valeta obstruída
crew-drainage-gully-blocked = boca de lobo obstruída
crew-drainage-high-verge = acostamento mais alto que a pista
crew-drainage-no-drainage = nada a escoa
crew-drainage-standing-water = água parada ao lado
crew-base-kind = Base: tipo ou origem
crew-base-kind-hint = Não é obrigatório; p. ex. brita graduada 0/20 e a pedreira.
crew-weather = Tempo ao selar
crew-weather-hint = Não é obrigatório. Se houver vários: o último deles.
crew-weather-dry = seco
crew-weather-dry-hint = seco também na véspera
crew-weather-damp = úmido
crew-weather-damp-hint = orvalho, neblina ou garoa
crew-weather-rain-within-a-day = chuva em um dia
crew-weather-rain-within-a-day-hint = na véspera, ou vai chover amanhã
crew-weather-frost = geada
crew-weather-frost-hint = na noite passada, ou vai gear esta noite
crew-air-temperature = Temperatura do ar
crew-field-drainage = Drenagem
crew-field-base = Base: tipo ou origem
crew-field-weather = Tempo ao selar
crew-field-air-temperature-c = Temperatura do ar
