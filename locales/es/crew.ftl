# El teléfono de la cuadrilla.
crew-nav = Partes de la aplicación de la cuadrilla
crew-nav-round = Ruta
crew-nav-new-hole = Bache nuevo
crew-nav-nearby = Revisar
crew-nav-queue = Cola
crew-back = Atrás
crew-nothing-here = Aquí no hay nada.
crew-today = Hoy
crew-yes = Sí
crew-no = No
crew-done = hecho
crew-note = Observación
crew-less = { $what }: menos
crew-more = { $what }: más
crew-larger = { $what }: más grande
crew-smaller = { $what }: más pequeño
crew-minutes = { $n } min
crew-planned-is = Previsto: { $value }
crew-spread = (8 de cada 10: de { $low } a { $high })
crew-install-words = Ponga la aplicación en la pantalla de inicio: así se abre sin señal como cualquier otra.
crew-install = Instalar
crew-not-now = Ahora no

# what is queued
crew-queue = Lo comunicado
crew-badge-sent = Todo enviado
crew-badge-queued = { $count } en cola
crew-badge-trouble-queued = { $trouble }, { $count } en cola
crew-badge-refused = { $count } sin aceptar
crew-queue-sum = En espera: { $waiting }. Fotos en espera: { $photos }. Sin aceptar: { $refused }.
crew-queue-last = Al día con la oficina a las { $at }.
crew-queue-empty = En este teléfono aún no se ha comunicado nada.
crew-sync-now = Enviar y recibir ahora
crew-sync-running = Enviando y recibiendo
crew-told-waiting = En cola
crew-told-sent = Enviado
crew-told-refused = Sin aceptar
crew-refused-why = El servidor dice:
crew-trouble-says = Dice:
crew-put-right = Corregir
crew-tell-again = Comunicar otra vez
crew-drop = Descartar
crew-drop-sure = Sí, descartar para siempre
crew-withdraw = Fue un error
crew-withdraw-sure = Sí, retirarlo
crew-withdrawn = Retirado
crew-sent-count = Enviados: { $count }
crew-photos = Fotos
crew-photo = Tomar una foto
crew-photo-of = Foto: { $note }
crew-photo-no-room = No hay sitio para la foto en este teléfono. Borre otra cosa y tómela de nuevo.
crew-photos-kept = { $count ->
    [one] { $count } foto guardada
   *[other] { $count } fotos guardadas
  }
crew-kind-hole-reported = Bache nuevo
crew-kind-hole-measured = Bache medido
crew-kind-zone-opened = Zona abierta
crew-kind-zone-closed = Zona cerrada
crew-kind-hole-cut = Excavado
crew-kind-layer-placed = Capa colocada
crew-kind-sealed = Sellado
crew-kind-opened-to-traffic = Abierto al tránsito
crew-kind-inspected = Reparación revisada
crew-kind-failed = Reparación fallida
crew-kind-stock-moved = Escombro en el camión
crew-kind-stock-counted = Existencias contadas
crew-kind-time-booked = Tiempo anotado
crew-kind-photo-taken = Foto
crew-kind-corrected = Corrección
crew-kind-signed = Firmado

# the round
crew-which = ¿Qué cuadrilla?
crew-no-rounds = Este teléfono no conoce ninguna ruta prevista para la cuadrilla. Con señal vuelve a mirar por sí solo.
crew-no-files = Los dibujos y listas de este día no están en el teléfono. Se muestra lo que consta en el registro; con señal llega el resto, si la oficina lo ha hecho.
crew-next-site = Lugar { $n } de { $of }
crew-day-done = Todos los lugares de este día están hechos.
crew-sites = Lugares
crew-sites-count = { $count ->
    [one] { $count } lugar
   *[other] { $count } lugares
  }
crew-holes-count = { $count ->
    [one] { $count } bache
   *[other] { $count } baches
  }
crew-devices-count = { $count ->
    [one] { $count } dispositivo
   *[other] { $count } dispositivos
  }
crew-layers-count = { $count ->
    [one] { $count } capa
   *[other] { $count } capas
  }
crew-drive = Recorrido { $way }, { $time }; salida a las { $from }
crew-other-days = Otros días
crew-daylight = Sale el sol { $sunrise }, se pone { $sunset }
crew-sketch = El recorrido del día con sus lugares
crew-site-planned = pendiente
crew-site-open = en obra
crew-site-mended = señales aún fuera
crew-site-done = hecho
crew-load = Carga
crew-trip = Viaje { $n }
crew-suffices = Probabilidad de que alcance: { $chance }
crew-load-devices = { $signs } señales, { $cones } conos
crew-load-planned-only = Lo previsto para los baches, sin margen.
crew-nearest = { $what }: más en { $place }, a { $time }
crew-nearest-short = { $what }: más en { $place }
crew-changed = El plan ha cambiado
crew-changed-seen = Visto
crew-change-added = Nuevo: { $road }
crew-change-removed = Quitado: { $road }
crew-change-moved = { $road } pasa al { $day }
crew-change-amounts = { $road }: otras cantidades
crew-change-order = El orden de los lugares es otro

# a site
crew-site = Lugar
crew-site-gone = Esto ya no está en las rutas de la cuadrilla.
crew-where = Dónde
crew-chainage = A { $way } de { $from }, hacia { $towards }
crew-windows = Se puede estorbar el tránsito de
crew-zone = Zona de obra
crew-zone-none = No se previó ninguna disposición.
crew-zone-proposal = La disposición es una propuesta. Deciden la norma local de control del tránsito y la persona autorizada según ella.
crew-zone-opened-by = Abierta por { $who } a las { $at }; dispositivos fuera: { $count }
crew-zone-closed-by = Cerrada por { $who } a las { $at }; dispositivos recogidos: { $count }
crew-zone-not-open = La zona no está abierta. Nadie entra en el carril antes de que estén las señales.
crew-remarks = Observaciones a la disposición
crew-repairs = Baches
crew-hole-n = Bache { $n }
crew-next-hole = Bache siguiente
crew-next-stop = Lugar siguiente
crew-to-site = Al lugar
crew-drawing-place = Dónde está
crew-drawing-zone = Zona de obra
crew-drawing-cut = Corte
crew-drawing-section = Sección
crew-drawing-pattern = Orden de pasadas

# devices
crew-devices = Dispositivos
crew-devices-out = Colocar dispositivos
crew-devices-back = Recoger dispositivos
crew-turn-out = Colocar
crew-turn-back = Recoger
crew-caution-out = Tránsito en marcha. Ropa de alta visibilidad, de cara al tránsito, con sitio para apartarse. Si falta un dispositivo, parar.
crew-caution-back = Tránsito en marcha. En orden inverso al de colocación: lo que protege se recoge al final.
crew-count-out = Colocados: { $n } de { $of }
crew-count-back = Recogidos: { $n } de { $of }
crew-step-opposing-advance = Señales de aviso, sentido contrario
crew-step-advance = Señales de aviso, nuestro carril
crew-step-joining = Señales en vías que desembocan
crew-step-joining-station = Bandereros en vías que desembocan
crew-step-opposing-station = Banderero, sentido contrario
crew-step-station = Banderero, nuestro carril
crew-step-lane = El carril, en el sentido del tránsito
crew-step-end-of-opposing = Señal de fin, sentido contrario
crew-step-end-of-work = Señal de fin, nuestro carril
crew-step-to-the-work = A la obra
crew-drive-on = conducir { $way }
crew-walk = caminar { $way }
crew-turn-round = dar la vuelta
crew-before-work = { $way } antes de la obra
crew-at-work = junto a la obra
crew-past-work = { $way } después de la obra
crew-our-lane = nuestro carril
crew-oncoming = sentido contrario
crew-put-out = Colocado: { $what }
crew-taken-in = Recogido: { $what }
crew-devices-planned = Dispositivos previstos: { $count }
crew-counted-out = Dispositivos colocados
crew-counted-back = Dispositivos recogidos
crew-went-out = Se colocaron: { $count }
crew-agreed = La persona autorizada ha pasado en vehículo y está de acuerdo
crew-agreed-hint = Sin eso la zona no está abierta.
crew-not-all-out = Sin marcar: { $count }
crew-open-zone = La zona está abierta
crew-open-again = Comunicar otra vez la apertura
crew-fewer-back = { $count ->
    [one] { $count } dispositivo sigue en la vía
   *[other] { $count } dispositivos siguen en la vía
  }
crew-looked-for = Hemos pasado en vehículo y lo hemos buscado
crew-close-zone = La zona está cerrada
crew-close-missing = Cerrar, faltan: { $count }

# a repair
crew-repair = Reparación
crew-stages = Etapas
crew-stage-traffic-out = Colocar control de tránsito
crew-stage-mark-out = Marcar
crew-stage-cut = Excavar
crew-stage-fill = Rellenar
crew-stage-compact = Compactar
crew-stage-seal = Sellar
crew-stage-clean-up = Limpiar y abrir
crew-stage-traffic-in = Recoger control de tránsito
crew-how = Cómo
crew-stage-back = Etapa anterior
crew-next-stage = Etapa siguiente
crew-tell-cut = Comunicar: excavado
crew-tell-compact = Comunicar: capa { $n } colocada
crew-tell-seal = Comunicar: sellado
crew-tell-clean-up = Comunicar: abierto al tránsito
crew-cautions = Precauciones
crew-checks = Comprobaciones
crew-check-agreed = La disposición está acordada con la persona autorizada
crew-check-seen-through = Recorrido una vez: se ven todas las señales
crew-check-vest = Ropa de alta visibilidad puesta
crew-check-cleaned = Bache limpio y examinado
crew-check-sound = Líneas en firme sano, a 100 mm del bache como máximo
crew-check-straight = Líneas rectas, esquinas a escuadra
crew-check-services = No hay cables ni tuberías debajo, o están marcados
crew-check-centre-out = Excavado del centro hacia fuera
crew-check-spoil-off = El escombro está en el camión; nada en calzada, arcén ni cerca de un desagüe
crew-check-same-kind = Base del mismo tipo que la de la vía
crew-check-spread = Extendida por igual, hasta las esquinas
crew-check-edges = Bordes del corte protegidos del rodillo
crew-check-corners-first = De las esquinas hacia el centro
crew-check-proud = La última capa queda algo por encima de la calzada
crew-check-swept = Superficie barrida y limpia
crew-check-overlap = El ligante solapa 80 mm el firme sano
crew-check-one-layer = Una sola capa de gravilla, en seguida
crew-check-bedded = Compactada hasta que la gravilla asiente bien
crew-check-swept-up = Barrido; nada suelto en la calzada
crew-check-drains = Arcén y desagües limpios
crew-check-tools = Herramientas y material sobrante contados
crew-check-reverse = Dispositivos recogidos en orden inverso
crew-check-nothing-left = Recorrido una vez: no queda nada
crew-cut-length = Largo del corte, a lo largo de la vía
crew-cut-width = Ancho del corte, a lo ancho de la vía
crew-area-is = Superficie: { $area }
crew-depth-planned = Profundidad prevista
crew-depths = Profundidad en varios puntos
crew-depth-n = Profundidad { $n }
crew-depth-another = Un punto más
crew-deeper-than-planned = Más hondo que lo previsto: { $deepest } en vez de { $planned }. Vea qué hace falta ahora.
crew-bigger = Es más grande que lo previsto
crew-bottom-firm = ¿Está firme el fondo?
crew-bottom-soft = Siga hasta suelo firme o pregunte al ingeniero. Un bacheo sobre suelo blando se hunde.
crew-sides-upright = ¿Están verticales y firmes los lados?
crew-wetness = ¿Cuánta agua hay debajo?
crew-wetness-dry = seco
crew-wetness-damp = húmedo
crew-wetness-wet = mojado
crew-wetness-seepage = se filtra agua
crew-wetness-pumping = el tránsito bombea agua
crew-water-below = El agua viene de alguna parte. Avise a la oficina: sin drenaje la reparación no durará.
crew-spoil = Escombro retirado
crew-in-counts = Contar en { $plural }
crew-in-measures = Anotar la medida
crew-layer-of = Capa { $n } de { $of }
crew-layer-n = Capa { $n }
crew-layer-another = Una capa más
crew-loose-thickness = Extender { $loose } suelto; queda en { $firm }
crew-moisture = Un puñado, apretado
crew-moisture-falls-apart = se deshace
crew-moisture-falls-apart-do = demasiado seco: añadir agua
crew-moisture-keeps-shape = conserva la forma
crew-moisture-keeps-shape-do = bien
crew-moisture-oozes = rezuma
crew-moisture-oozes-do = demasiado mojado: extender y dejar secar
crew-base-used = Base usada en esta capa
crew-water-used = Agua añadida a esta capa
crew-base-whole = Base para todo el bache, suelta
crew-water-whole = Agua para todo el bache
crew-passes-still = Pasadas sin vibración
crew-passes-vibrating = Pasadas con vibración, o de placa o pisón
crew-layer-thickness = Espesor compactado
crew-caution-binder = El ligante quema: careta, guantes, manga larga, agua fresca a mano. Ninguna llama cerca del vapor. Decide la ficha de seguridad.
crew-surface-dry = ¿Está seca la superficie?
crew-surface-wet = No selle una superficie mojada: el ligante no agarra.
crew-binder = Ligante, grado o producto
crew-binder-hint = Como pone en el bidón.
crew-binder-used = Ligante usado, tal como se riega
crew-binder-whole = Ligante, tal como se riega
crew-stone-used = Gravilla usada
crew-stone-whole = Gravilla
crew-sealed-area = Superficie sellada
crew-crown = Altura sobre la calzada
crew-surface-temperature = Temperatura de la superficie
crew-opening-after = Primer tránsito no antes de { $time } tras la última gravilla
crew-opening-from = Primer tránsito desde las { $at } (en { $time })
crew-opening-now = Primer tránsito desde las { $at }: si ninguna piedra gira bajo una rueda que dobla
crew-opening-too-cold = Más frío que la tabla del plan. Pregunte antes de sellar o abrir.
crew-opening-row = desde { $from }: { $time }
crew-opening-slow = Como máximo { $speed }/h durante { $hours } h. Decide la persona autorizada.
crew-opened-by = Abierto al tránsito por { $who } a las { $at }
crew-sign = Tiempo y firma
crew-time-minutes = Minutos en esta reparación
crew-since-begun = { $n } min desde que se empezó en este teléfono
crew-people = Personas
crew-unticked = Comprobaciones sin marcar: { $count }
crew-sign-now = Respondo de ello: { $name }
crew-signed-by = Firmado por { $who }, { $at }
crew-repair-planned = prevista
crew-repair-cut-out = excavada
crew-repair-filling = rellenando
crew-repair-sealed = sellada
crew-repair-open = abierta al tránsito
crew-repair-failed = fallida

# bigger than planned
crew-depth-now = Profundidad ahora
crew-measure-photo = Medir en una foto
crew-layers-now = { $count ->
    [one] { $count } capa de { $thickness }
   *[other] { $count } capas de { $thickness } cada una
  }
crew-material = Material
crew-now-needs = Ahora hace falta
crew-more-than-planned = Frente al plan
crew-good-base = Base, suelta
crew-good-water = Agua
crew-good-binder = Ligante
crew-good-cover-stone = Gravilla
crew-good-spoil = Escombro
crew-truck-enough = Según el plan el camión lleva bastante, si nada más necesitó de más.
crew-truck-short = Según el plan al camión le falta:
crew-beyond-table = Más hondo que la tabla del plan ({ $last }). Las cantidades son proporcionales a la profundidad: una estimación. Pare y pregunte a la oficina.
crew-bigger-how = Calculado en este teléfono con la fila del plan para { $row }, en proporción a la superficie ({ $area } en vez de { $planned }). La oficina lo planifica de nuevo.
crew-bigger-no-plan = La tabla del plan no está en este teléfono: aquí no se pueden calcular capas ni cantidades. Comunique las medidas; la oficina lo calcula.
crew-ask-replan = Comunicar y pedir plan nuevo
crew-replan-waiting = La petición está en cola; sale con la próxima señal.
crew-replan-sent = La oficina tiene la petición.
crew-replan-refused = La petición no se aceptó. Vea la cola.

# a new hole, an older repair
crew-caution-stop = Pare solo donde sea seguro. Nadie en la vía sin control de tránsito.
crew-here = Este teléfono sabe dónde está con un margen de { $accuracy }.
crew-here-looking = Buscando dónde está este teléfono.
crew-here-denied = Este teléfono no puede decir dónde está. Permítalo en el navegador o escriba el lugar.
crew-here-none = Este teléfono no sabe dónde está. Escriba el lugar.
crew-here-taken = Tomado del teléfono, con un margen de { $accuracy }
crew-take-here = El bache está aquí
crew-lat = Latitud
crew-lon = Longitud
crew-hole-length = Largo, a lo largo de la vía
crew-hole-width = Ancho, a lo ancho de la vía
crew-hole-depth = Profundidad máxima
crew-lane-position = ¿Dónde, a lo ancho de la vía?
crew-lane-lane = en el carril, entre rodadas
crew-lane-wheel-path = en una rodada
crew-lane-edge = en el borde del tratamiento
crew-lane-shoulder = en el arcén
crew-lane-centre = en el eje
crew-place-first = Falta el lugar
crew-tell-hole = Comunicar el bache
crew-hole-told = Comunicado. Queda en este teléfono y se envía cuando haya señal.
crew-holes-told = Comunicados en este teléfono
crew-nearby-words = Reparaciones hechas, la más cercana primero. Mire cómo aguantan.
crew-nearby-none = Este teléfono no conoce ninguna reparación hecha.
crew-inspect = Revisar una reparación
crew-found = ¿Qué se ve?
crew-found-holds = Aguanta
crew-found-holds-hint = lisa, cerrada, la gravilla en su sitio
crew-found-worn = Aguanta pero se desgasta
crew-found-worn-hint = gravilla perdida, ligante arriba, bordes abiertos
crew-found-failed = Ha fallado
crew-found-failed-hint = otra vez un bache: se comunica también como bache nuevo
crew-tell-found = Comunicar lo visto

# told differently
crew-differ = Comunicado distinto en dos teléfonos
crew-differ-words = Hablen y midan de nuevo; quien lo comunica otra vez lo corrige.
crew-differ-counts = Vale: { $value }, { $who }
crew-differ-other = Comunicado distinto: { $value }, { $who }
crew-field-area-m2 = Superficie del corte
crew-field-depths-mm = Profundidades
crew-field-bottom-firm = Fondo firme
crew-field-sides-upright = Lados verticales
crew-field-wetness = Agua
crew-field-zone = Zona
crew-field-thickness-mm = Espesor
crew-field-base-loose-m3 = Base, suelta
crew-field-water-l = Agua
crew-field-moisture = Humedad en la mano
crew-field-passes-still = Pasadas sin vibración
crew-field-passes-vibrating = Pasadas con vibración
crew-field-binder-l = Ligante
crew-field-binder = Producto del ligante
crew-field-cover-stone-m3 = Gravilla
crew-field-sealed-area-m2 = Superficie sellada
crew-field-crown-mm = Altura sobre la calzada
crew-field-dry = Superficie seca
crew-field-devices-out = Dispositivos colocados
crew-field-devices-in = Dispositivos recogidos
crew-field-position = Lugar
crew-field-road = Vía
crew-field-layout = Disposición
crew-field-stretches = Tramos
crew-field-round = Ruta

# whose is what on the phone, and its room
crew-queue-others = { $count ->
    [one] { $count } anotación de { $who } espera en este teléfono. Se envía cuando esa persona entra en él.
   *[other] { $count } anotaciones de { $who } esperan en este teléfono. Se envían cuando esa persona entra en él.
  }
crew-room = Espacio en este teléfono
crew-room-taken = { $taken } ocupados de { $of }.
crew-room-kept = El navegador lo conserva, también cuando le falta espacio.
crew-room-not-kept = El navegador puede borrarlo cuando le falte espacio. Ponga la aplicación en la pantalla de inicio o pida al navegador que lo conserve.
crew-room-ask = Pedir al navegador que lo conserve
crew-room-denied = El navegador no accedió. Ponga la aplicación en la pantalla de inicio y pídalo otra vez.
crew-room-goes = Lo que ya tiene la oficina se borra aquí solo: las fotos tras { $photo ->
    [one] un día
   *[other] { $photo } días
  } (queda una imagen pequeña), lo demás tras { $sent } días, planos y listas { $file } días después de su ronda. Lo que espera o no se aceptó se queda.

crew-photo-hole = Según la foto: el bache tiene { $area } ± { $error }.
crew-photo-cut = Corte propuesto: { $area }, { $length } por { $width }. El jefe de cuadrilla mira el bache y decide.
crew-photo-depth = Indique la profundidad para que se proponga un corte.
crew-photo-no-signal = Sin señal: el contorno queda guardado y el corte se propone cuando haya señal.
crew-photo-not-signed-in = Inicie sesión para que se proponga un corte.

# revisiones de reparaciones anteriores en la ronda
crew-look = Revisar una reparación anterior
crew-look-open = por revisar
crew-look-passed = sin revisar
crew-look-along = a { $way } del comienzo de la vía
crew-look-why = Motivo:
crew-look-pass = Sin lugar seguro para parar
crew-look-was-passed = Sin revisar: no había lugar seguro para parar. No se ha comunicado nada; la oficina vuelve a planificarlo.
crew-look-again-on-list = Devolver a la lista
crew-caution-look = Pare fuera de la calzada, del lado de la reparación. Cuidado con el tráfico al bajar; nadie pisa la calzada. Si no hay lugar seguro, siga. Decide la norma local de señalización.
crew-done-there = Lo que se hizo allí
crew-done-there-unknown = Lo que se hizo allí no está en este teléfono.
crew-layers = Capas

# lo que la cuadrilla ve alrededor de su trabajo
crew-not-told = Sin decir
crew-drainage = ¿Cómo sale aquí el agua de la vía?
crew-drainage-hint = No es obligatorio. Si hay varios: el peor.
crew-drainage-ditch-works = la cuneta funciona
crew-drainage-kerb-and-gully = bordillo y sumidero
crew-drainage-ditch-blocked = cuneta obstruida
crew-drainage-gully-blocked = sumidero obstruido
crew-drainage-high-verge = arcén más alto que la calzada
crew-drainage-no-drainage = nada la evacúa
crew-drainage-standing-water = agua estancada al lado
crew-base-kind = Base: tipo o procedencia
crew-base-kind-hint = No es obligatorio; p. ej. zahorra 0/20 y su cantera.
crew-weather = Tiempo al sellar
crew-weather-hint = No es obligatorio. Si hay varios: el último de ellos.
crew-weather-dry = seco
crew-weather-dry-hint = también seco el día anterior
crew-weather-damp = húmedo
crew-weather-damp-hint = rocío, niebla o llovizna
crew-weather-rain-within-a-day = lluvia en un día
crew-weather-rain-within-a-day-hint = el día anterior, o lloverá mañana
crew-weather-frost = helada
crew-weather-frost-hint = anoche, o helará esta noche
crew-air-temperature = Temperatura del aire
crew-field-drainage = Drenaje
crew-field-base = Base: tipo o procedencia
crew-field-weather = Tiempo al sellar
crew-field-air-temperature-c = Temperatura del aire
