# O relatório do mês, impresso e em página

report-title = { $month } de { $year }
report-date = { $day } { $month } { $year }
report-about = Reparação de estradas com tratamento superficial: o que foi feito, o que custou, o que resta e o que dura.
report-goes-on = O mês continua: conta o que foi dito até { $day }.
report-footer = lengthsman { $version }, feito do registro até ao evento { $event }
report-all = tudo
report-named = { $what }: { $value }
report-price = { $amount } { $currency }
report-spread = { $middle } ({ $low }–{ $high })
report-road-not-known = estrada desconhecida
report-road = estrada
report-days = { $count ->
    [one] { $count } dia
   *[other] { $count } dias
}

## What was done
report-done = O que foi feito
report-repairs-opened = reparos abertos ao tráfego
report-area-cut = área cortada
report-area-of-repairs = { $area } de { $count } reparos
report-month-before = o mês anterior
report-repairs-counted = { $count ->
    [one] { $count } reparo
   *[other] { $count } reparos
}
report-new-holes = buracos novos avisados
report-by-each-road = Por estrada
report-more-roads = { $count ->
    [one] mais { $count } estrada
   *[other] mais { $count } estradas
}
report-repairs = reparos
report-cost-of-month = custo do mês
report-told-and-mended = Buracos avisados e reparados, mês a mês
report-told = avisados
report-mended = reparados
report-told-and-mended-in = { $month }: { $told } avisados, { $mended } reparados

## What it cost
report-cost = O que custou
report-for = com
report-money = valor
report-share = parte
report-per-repair = por reparo
report-per-m2 = por m² cortado
report-per-ft2 = por ft² cortado
report-not-every-area = nem toda a área foi dita
report-planned-and-actual = Previsto e real, dos reparos que dizem ambos
report-part-of-planned = O real como parte do previsto
report-planned = previsto
report-actual = real
report-more = a mais
report-of-planned = { $what }: { $share } do previsto
report-part-labour = mão de obra
report-part-plant = caminhões e máquinas
report-part-base = base
report-part-cover-stone = brita de cobertura
report-part-binder = ligante
report-part-water = água
report-part-other-material = outro material
report-part-wasted = descartado
report-part-count-difference = diferença de contagem
report-part-price-difference = diferença de preço
report-base-loose = base, solta
report-time-at-zone = tempo na zona

## Stock
report-stock = Estoque
report-nothing-held = Nada foi guardado nem movido.
report-used-beyond-books = { $item }: usou-se mais do que os livros conhecem; conte e lance o que chegou.
report-item = artigo
report-opening = inicial
report-bought = comprado
report-into-repairs = em reparos
report-lost = perdido
report-closing = final
report-worth = valor
report-stock-spoil = entulho
report-stock-signs = placas
report-stock-cones = cones
report-stock-other-devices = outros dispositivos

## Risk that is left
report-left = O risco que resta
report-open-holes = buracos abertos no fim
report-past-their-day = fora do prazo
report-severity = gravidade
report-severity-counted = { $severity }: { $count }
report-none-judged = nenhum avaliado
report-not-judged = não avaliados
report-riskiest = Os de maior risco
report-hole = buraco
report-risk-points = pontos de risco
report-open-for = aberto há
report-due = prazo
report-risk-note = Os pontos de risco põem os buracos em ordem e não medem probabilidade alguma; nenhum número de pontos quer dizer que um buraco seja seguro. Buracos não medidos, ou fora de estrada conservada, não são avaliados: meça-os.

## What lasts
report-lasts = O que dura
report-lives-known = vidas de reparos conhecidas
report-lives-failed = destas falharam
report-lasts-note = O registro mostra o que andou junto, não qual foi a causa: as equipes têm estradas diferentes. Uma diferença que o acaso sozinho faria não é nenhuma.
report-nothing-to-compare = O registro ainda não diz nada com que comparar reparos.
report-by = por
report-group = grupo
report-failed = falhas
report-half-outlast = metade passa de
report-mean-life = vida média dentro da janela
report-mean-within = { $mean } ± { $error } de { $days }
report-too-few = poucas demais para dizer
report-not-reached = não atingido
report-still-whole-by = Reparos ainda inteiros, por { $by }
report-still-whole = ainda inteiros
report-at-risk = em observação
report-days-unit = dias
report-curve-in-words = { $group }: { $lives } vidas, { $failures } falhas, metade passa de { $median }
report-differ = Os grupos diferem: só o acaso os separaria assim em { $cases } de 100 casos.
report-pairs-differ = Dois a dois diferem: { $pairs }.
report-pair = { $first } e { $second }
report-no-difference = Não se mostra diferença: só o acaso separaria assim os grupos em { $cases } de 100 casos. Isso não prova que sejam iguais.
report-groups-too-few = Se os grupos diferem: falhas poucas demais para dizer.
report-less-than = menos de { $number }
report-by-crew = equipe
report-by-material = material da base
report-by-binder = ligante
report-by-layers = número de camadas
report-by-moisture = base na mão
report-by-wetness = água no buraco
report-by-surface = superfície ao selar
report-by-weather = tempo ao selar
report-by-temperature = temperatura do ar
report-by-month = mês
report-by-season = época do ano
report-by-road = estrada
report-by-road-class = classe da via
report-by-traffic = tráfego
report-by-drainage = drenagem
report-by-rules = cumprimento das regras
report-group-not-known = não se sabe
report-group-dry-surface = superfície seca
report-group-wet-surface = superfície molhada
report-group-by-rules = pelas regras
report-group-not-by-rules = fora das regras
report-group-falls-apart = esfarela
report-group-keeps-shape = mantém a forma
report-group-oozes = escorre
report-group-layers = { $count ->
    [one] { $count } camada
   *[other] { $count } camadas
}
report-group-traffic-under = menos de { $most } por dia
report-group-traffic-between = { $from } a { $to } por dia
report-group-traffic-from = { $least } por dia ou mais
report-group-ditch-works = valeta funciona
report-group-ditch-blocked = valeta obstruída
report-group-kerb-and-gully = meio-fio e boca de lobo
report-group-gully-blocked = boca de lobo obstruída
report-group-high-verge = acostamento mais alto que a pista
report-group-no-drainage = sem drenagem
report-group-standing-water = água parada ao lado
report-group-weather-dry = tempo seco
report-group-weather-damp = orvalho, neblina ou garoa
report-group-weather-rain = chuva em um dia
report-group-weather-frost = geada
report-group-temperature-under = menos de { $most }
report-group-temperature-between = de { $from } a { $to }
report-group-temperature-from = { $least } ou mais
report-class-motorway = autoestrada
report-class-trunk = via expressa
report-class-primary = primária
report-class-secondary = secundária
report-class-tertiary = terciária
report-class-unclassified = sem classe
report-class-residential = rua residencial
report-class-service = via de serviço
report-class-track = caminho

## Where patching nears its end
report-stop = Onde o tapa-buracos chega ao fim
report-stretches = trechos vistos
report-past-patching = fim do tapa-buracos
report-repair-price = preço de um reparo
report-years-looked-at = anos considerados
report-engineer-decides = **Decide o engenheiro rodoviário.** Os trechos em que renovar agora se compara melhor com seguir tapando, dez no máximo; onde o tapa-buracos chegou ao fim, renovar agora custa menos em nove de cada dez futuros. Metros ou pés contam ao longo da seção do arquivo de estradas.
report-stop-caption = Custos em { $years } anos a valor de hoje, em milhares de { $currency }: média e, entre parênteses, do que um de cada dez futuros não alcança ao que nove não passam. Mais barato: nessa parte dos futuros.
report-m-along = m na seção
report-ft-along = ft na seção
report-holes-a-year = buracos por ano
report-patched-on = seguir tapando
report-renewed-now = renovar agora
report-renewed-by = renovação
report-even-in-year = iguais no ano
report-renewing-cheaper = renovar mais barato
report-later = depois
report-renewal-reseal = novo revestimento selante
report-renewal-new-base = base nova e selagem
report-stop-note = O modelo conhece buracos, preços e vidas de reparos. Não sabe o que há sob a superfície, nem da água que vem dos lados, do tráfego que virá, de obras de outros ou do que uma estrada fechada custa a quem a usa. Preços e vidas das renovações são definição da entidade. O projeto do pavimento cabe a um engenheiro habilitado.
report-no-roads = Não se conhecem estradas, por isso nada se pode dizer dos seus trechos.
report-too-short = O registro tem menos de um quarto de ano: pouco demais para dizer quantos buracos um ano traz.
report-no-cost = Nenhum reparo dos últimos doze meses tem custo nos livros, por isso seguir tapando não tem preço.
report-no-hole = Nenhum buraco novo do registro fica em estrada conservada.
report-no-law = As regras não dão nenhuma lei de vida dos reparos com que se possa trabalhar.
report-unworkable = Com as definições das regras não se pode calcular.

## How the figures were worked out
report-workings = Como os números foram calculados, e o que não podem dizer
report-figure = número
report-how = como
report-where-from = de onde
report-source-record = o registro
report-source-books = os livros
report-source-handbook = manual, { $page }
report-source-books-and-handbook = os livros; manual, { $page }
report-source-distance = manual, { $page }; distância: { $source }
report-source-arrival = manual, { $page }; buracos que são a falha de um reparo não são novos
report-figure-repairs = Reparos, área
report-how-repairs = reparos sobre os quais o tráfego passou pela primeira vez no mês (selados, onde ninguém disse que foram abertos); área como cortada, até onde as equipes a disseram
report-figure-cost = Custo
report-how-cost = tempo lançado aos preços do distrito, material ao preço médio do que havia em estoque quando foi usado; o que foi lançado numa ronda é repartido pelos seus reparos
report-figure-stock = Estoque
report-how-stock = inicial + comprado − em reparos − perdido = final, em depósitos, caminhões e zonas; perdido é o que se deitou fora menos o que as contagens acharam, e pode conter uma diferença de preço
report-figure-planned = Previsto e real
report-how-planned = somas sobre os reparos do mês de que ambos foram ditos; previsto é o último plano de cada um
report-figure-risk = Pontos de risco, gravidade, prazo
report-how-risk = como o buraco foi medido por último, avaliado no último dia do relatório
report-figure-lives = Vidas dos reparos
report-how-lives = da abertura até alguém dizer ou ver que falhou, ou ser visto um buraco novo a menos de { $distance } do mesmo lado; senão inteiro até { $day }
report-figure-lasts = O que dura
report-how-lasts = curvas produto-limite, faixas de { $confidence }, teste log-rank; menos de { $failures } falhas são poucas demais para dizer
report-figure-stop-price = Fim do tapa-buracos: preço de um reparo
report-how-stop-price = todos os custos dos últimos doze meses, { $cost }, por { $repairs } reparos = { $price }
report-figure-stop-holes = Fim do tapa-buracos: buracos novos por ano
report-how-stop-holes = { $holes } buracos novos em { $years } anos nas estradas conservadas, { $length } km·ano: { $rate } por quilômetro e ano; { $drawn }
report-how-stop-anew = ; onde uma estrada recebeu superfície nova, buracos e tempo contam desde esse dia
report-not-drawn = os trechos não diferem mais do que por acaso, por isso cada um tem a taxa do distrito
report-drawn-by = a contagem de cada trecho é puxada para ela como se { $holes } buracos esperados tivessem sido vistos noutro lugar
report-figure-stop-lives = Fim do tapa-buracos: vidas dos reparos
report-how-law-of-lives = lei de Weibull ajustada a { $lives } vidas com { $failures } falhas: escala { $scale } anos, forma { $shape }
report-how-law-of-rules = falhas poucas demais para dizer; lei de Weibull das regras: escala { $scale } anos, forma { $shape } ({ $source })
report-figure-stop-costs = Fim do tapa-buracos: custos e ano em que se igualam
report-how-stop-costs = { $futures } futuros de { $years } anos a { $interest } de juro; os buracos novos crescem { $growth } por ano; { $renewals }
report-renewal-in-words = { $renewal } { $price } por m², restam { $left } dos buracos novos, amortizado em { $years } anos ({ $source })
report-limit-not-told = O que ninguém disse não está no registro nem neste relatório. O que for dito depois muda o relatório de um mês passado.
report-limit-sizes = Os tamanhos dos buracos são os últimos ditos quando o relatório foi feito, não os do último dia do mês.
report-limit-not-judged = { $count ->
    [one] { $count } buraco aberto não está avaliado.
   *[other] { $count } buracos abertos não estão avaliados.
}
report-limit-no-place = Nenhum reparo fica em estrada conhecida: de nenhum buraco novo se pôde dizer que fosse a falha de um reparo.
report-limit-resurfaced-nowhere = { $count ->
    [one] Foi comunicada { $count } superfície nova que não está em nenhuma estrada conhecida: os reparos debaixo dela contam como ainda observados.
   *[other] Foram comunicadas { $count } superfícies novas que não estão em nenhuma estrada conhecida: os reparos debaixo delas contam como ainda observados.
}
report-limit-findings = { $count ->
    [one] Os livros têm { $count } aviso que alguém tem de ver; pode mudar estoque e custo.
   *[other] Os livros têm { $count } avisos que alguém tem de ver; podem mudar estoque e custo.
}
report-budget-caption = O que deixa o dinheiro para renovações, se for primeiro aonde evita mais buracos; milhares de { $currency }
report-budget-across = dinheiro para renovações, milhares
report-budget-up = buracos por vir em { $years } anos, com os reparos que falham
