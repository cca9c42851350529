# ملف العمل المطبوع، والوحدات كما على الشريط والميزان وعصا القياس

unit-mm = مم
unit-m = م
unit-km = كم
unit-m2 = م²
unit-m3 = م³
unit-l = لتر
unit-kg = كغ
unit-l-per-m2 = لتر/م²
unit-kg-per-m2 = كغ/م²
unit-km-per-h = كم/س
unit-celsius = °م
unit-in = بوصة
unit-ft = قدم
unit-mi = ميل
unit-ft2 = قدم²
unit-ft3 = قدم³
unit-gal = غالون
unit-lb = رطل
unit-gal-per-yd2 = غالون/ياردة²
unit-lb-per-yd2 = رطل/ياردة²
unit-mi-per-h = ميل/س
unit-fahrenheit = °ف
unit-h = س
unit-min = د

sheet-list = { $first }، { $second }
sheet-both = { $first } و{ $second }
sheet-either = { $first } أو { $second }
sheet-range = { $low } إلى { $high }
sheet-percent = { $number }%
sheet-about = نحو { $counted }
sheet-about-range = نحو { $counted }، من { $low } إلى { $high }
sheet-until = حتى { $time }
sheet-page = صفحة { $page } من { $pages }
sheet-footer = lengthsman { $version }، البذرة { $seed }
sheet-title = ملف العمل، { $district }، { $date }

day-monday = الاثنين
day-tuesday = الثلاثاء
day-wednesday = الأربعاء
day-thursday = الخميس
day-friday = الجمعة
day-saturday = السبت
day-sunday = الأحد
month-january = يناير
month-february = فبراير
month-march = مارس
month-april = أبريل
month-may = مايو
month-june = يونيو
month-july = يوليو
month-august = أغسطس
month-september = سبتمبر
month-october = أكتوبر
month-november = نوفمبر
month-december = ديسمبر
month-short-january = يناير
month-short-february = فبراير
month-short-march = مارس
month-short-april = أبريل
month-short-may = مايو
month-short-june = يونيو
month-short-july = يوليو
month-short-august = أغسطس
month-short-september = سبتمبر
month-short-october = أكتوبر
month-short-november = نوفمبر
month-short-december = ديسمبر
sheet-long-date = { $weekday } { $day } { $month } { $year }
sheet-short-date = { $day } { $month }
sheet-overdue = { $day }، متأخر

wind-north = الشمال
wind-north-east = الشمال الشرقي
wind-east = الشرق
wind-south-east = الجنوب الشرقي
wind-south = الجنوب
wind-south-west = الجنوب الغربي
wind-west = الغرب
wind-north-west = الشمال الغربي
sheet-left = يسار
sheet-right = يمين
sheet-centre = المحور
sheet-left-by = يسار { $distance }
sheet-right-by = يمين { $distance }

sheet-holes = { $count ->
    [zero] لا حفر
    [one] حفرة واحدة
    [two] حفرتان
    [few] { $count } حفر
   *[other] { $count } حفرة
}
sheet-holes-in-cuts = { $cuts ->
    [one] { $holes } في قصّة واحدة
    [two] { $holes } في قصّتين
    [few] { $holes } في { $cuts } قصّات
   *[other] { $holes } في { $cuts } قصّة
}
sheet-holes-counted-in-cuts = { $holes ->
    [one] حفرة واحدة (القصّات: { $cuts })
    [two] حفرتان (القصّات: { $cuts })
    [few] { $holes } حفر (القصّات: { $cuts })
   *[other] { $holes } حفرة (القصّات: { $cuts })
}
sheet-holes-in-one-cut = { $count ->
    [one] حفرة في قصّة واحدة، انظر أدناه
    [two] حفرتان في قصّة واحدة، انظر أدناه
    [few] { $count } حفر في قصّة واحدة، انظر أدناه
   *[other] { $count } حفرة في قصّة واحدة، انظر أدناه
}
sheet-people = { $count ->
    [one] شخص واحد
    [two] شخصان
    [few] { $count } أشخاص
   *[other] { $count } شخصًا
}
sheet-devices = { $count ->
    [one] أداة واحدة
    [two] أداتان
    [few] { $count } أدوات
   *[other] { $count } أداة
}
sheet-cones-counted = { $count ->
    [one] مخروط واحد
    [two] مخروطان
    [few] { $count } مخاريط
   *[other] { $count } مخروطًا
}
sheet-signs = لافتات
sheet-cones = مخاريط
sheet-flaggers = حاملو الأعلام
sheet-shield-vehicles = مركبات الحماية
sheet-flagger = حامل علم
sheet-flagger-station = موقف حامل العلم
sheet-shield-vehicle = مركبة حماية
sheet-passes = { $count ->
    [one] شوط واحد
    [two] شوطان
    [few] { $count } أشواط
   *[other] { $count } شوطًا
}
sheet-passes-vibrating = { $count } بالاهتزاز
sheet-passes-then-vibrating = { $fixed } ثم { $vibrating } بالاهتزاز

sheet-severity-none = غير مصنّفة
sheet-severity-low = خفيفة
sheet-severity-medium = متوسطة
sheet-severity-high = شديدة
sheet-severity-may-be-worse = { $now }، { $worse } من { $day }؟
sheet-wetness-dry = جاف
sheet-wetness-damp = رطب
sheet-wetness-wet = مبلل
sheet-wetness-seepage = ينزّ ماء
sheet-wetness-pumping = يضخّ ماء
sheet-good-base = أساس
sheet-good-water = ماء
sheet-good-binder = رابط
sheet-good-stone = حصى التغطية
sheet-good-spoil = مخلفات

sheet-look-at-this = انظر في هذا قبل الانطلاق
sheet-alert-back-late = تنتهي الوردية { $end }: العودة حتى { $back } في تسعة أيام من عشرة، فقد تؤجَّل المواقف الأخيرة إلى يوم آخر.
sheet-alert-no-patch = { $count ->
    [one] قصّة واحدة ليست ترقيعًا وليست في هذا الملف: اسأل المهندس. تجدها في القائمة خلف هذه الورقة.
    [two] قصّتان ليستا ترقيعًا وليستا في هذا الملف: اسأل المهندس. تجدهما في القائمة خلف هذه الورقة.
    [few] { $count } قصّات ليست ترقيعًا وليست في هذا الملف: اسأل المهندس. تجدها في القائمة خلف هذه الورقة.
   *[other] { $count } قصّة ليست ترقيعًا وليست في هذا الملف: اسأل المهندس. تجدها في القائمة خلف هذه الورقة.
}
sheet-alert-at-stops = { $count ->
    [one] الموقف { $stops }: { $what }
   *[other] المواقف { $stops }: { $what }
}
sheet-alert-more = وغيرها { $count }: انظر كل ورقة منطقة قبل الانطلاق.
sheet-alert-too-narrow = يبقى { $width } فقط مفتوحًا: لا تستطيع المركبات تجاوز العمل. الشخص المخوَّل يقرّر كيف تُوجَّه.
sheet-alert-closed = لا يبقى شيء مفتوحًا: لا تستطيع المركبات تجاوز العمل. الشخص المخوَّل يقرّر كيف تُوجَّه.
sheet-alert-people = عدد الأشخاص اللازم { $needed } مع حاملي الأعلام؛ وفي الفريق { $people }.
sheet-alert-signs = عدد اللافتات اللازم { $needed }، وفي المستودع { $have }. لا تبدأ دونها.
sheet-alert-cones = عدد المخاريط اللازم { $needed }، وفي المستودع { $have }. لا تبدأ دونها.
sheet-alert-overload = الرحلة { $trip }: الحمولة القصوى { $most }، والمسموح للشاحنة { $allowed }.

sheet-job-pack = ملف العمل
sheet-nothing-no-hole = لا عمل اليوم: لم يُبلَّغ عن حفرة صالحة للتخطيط.
sheet-nothing-none-fits = { $count ->
    [one] لا عمل اليوم: الحفرة المبلَّغ عنها لا تدخل في جولة هذا اليوم.
    [two] لا عمل اليوم: الحفرتان المبلَّغ عنهما لا تدخلان في جولة هذا اليوم.
    [few] لا عمل اليوم: لا تدخل أي من { $count } حفر مبلَّغ عنها في جولة هذا اليوم.
   *[other] لا عمل اليوم: لا تدخل أي من { $count } حفرة مبلَّغ عنها في جولة هذا اليوم.
}
sheet-no-daylight = لا ضوء نهار
sheet-fact-stops = المواقف
sheet-fact-holes = الحفر
sheet-fact-leave-depot = مغادرة المستودع
sheet-fact-go-on-at = المتابعة عند
sheet-fact-back = العودة
sheet-fact-back-tipped = العودة بعد تفريغ المخلفات
sheet-fact-back-by = 9 أيام من 10، العودة حتى
sheet-fact-shift = الوردية
sheet-fact-sun = شروق الشمس وغروبها
sheet-fact-driving = القيادة
sheet-fact-crew = الفريق
sheet-fact-truck = الشاحنة
sheet-fact-plant = المعدات اللازمة
sheet-fact-part-of = جزء من
sheet-part-of-work-plan = خطة عمل
sheet-fact-left-out-overdue = متروكة رغم تأخرها
sheet-sprayer = رشاش
sheet-pouring-pot = وعاء صب
sheet-head-from = من
sheet-head-to = إلى
sheet-head-stop = موقف
sheet-head-what = ماذا
sheet-head-drive = الطريق إليه
sheet-to-yard = إلى { $yard }
sheet-back-to-depot = العودة إلى المستودع
sheet-load-for-trip = التحميل للرحلة { $trip }
sheet-wait = انتظار
sheet-break = استراحة
sheet-tip-spoil = تفريغ المخلفات
sheet-times-median = الأوقات بوسيط كل إصلاح (P50): أيام تتأخر بقدر ما تبكر أيام.
sheet-look-note = الفحص توقّف قصير خارج الطريق المعبّد: لا ينزل أحد إلى الطريق، وحيث لا مكان للتوقف تابِع السير. القاعدة المحلية هي الفصل.
sheet-look-at = فحص الإصلاح على { $road }
sheet-from-the-shoulder = من كتف الطريق، { $minutes }
sheet-looks-on-the-way = فحوص إصلاحات سابقة على الطريق
sheet-head-earlier-repair = إصلاح سابق
sheet-head-found = النتيجة
sheet-look-holds = صامد
sheet-look-worn = متآكل
sheet-look-failed = فاشل
sheet-look-not-made = لم يُفحص
sheet-look-mended = أُصلح في { $day }
sheet-look-after-opening = بعد { $days } يومًا من فتحه للسير
sheet-look-found-worn = وُجد متآكلًا، ويُفحص ثانية بعد { $days } يومًا
sheet-look-mark-note = الجانب: في اتجاه الطريق نفسه، أي اتجاه تزايد المسافة. متآكل: حصى مفقود، رابط ظاهر، حواف مفتوحة. فاشل، أو حفرة بجانبه: يُبلَّغ عنه كحفرة جديدة. لم يُفحص: لا مكان آمن للتوقف أو لا وقت.
sheet-learnt-more = في plan.json أسباب أخرى: { $count }.
sheet-from-the-record = من السجل:
sheet-alt-district-map = خريطة طرق المنطقة مع المستودع
sheet-alt-round-map = خريطة الجولة: الطرق والمسار والمواقف المرقمة

sheet-trip = { $count ->
    [one] الرحلة { $trip }: الموقف { $first }
   *[other] الرحلة { $trip }: المواقف { $first } إلى { $last }
}
sheet-trip-empty = الرحلة { $trip }
sheet-on-truck = { $count ->
    [one] اللازم على الشاحنة: الموقف { $first }
   *[other] اللازم على الشاحنة: المواقف { $first } إلى { $last }
}
sheet-on-truck-empty = اللازم على الشاحنة
sheet-enough = الكفاية: أساس { $base }، ماء { $water }، رابط { $binder }، حصى { $stone }
sheet-enough-of-each = كفاية كل منها: { $chance }
sheet-enough-and-more-at = { $enough }؛ والمزيد في { $places }
sheet-mass-of = { $mass } من { $payload }
sheet-mass-and-more = { $mass }، وما عليها غير ذلك
sheet-greatest-mass = أقصى كتلة محمولة
sheet-spoil-back = مخلفات راجعة { $volume }، { $mass }؛ مع الأساس على الأكثر
sheet-head-compartment = صندوق أو خزان
sheet-head-load = ما يُحمَّل
sheet-head-volume = الحجم
sheet-head-mass = الكتلة
sheet-head-room = السعة
sheet-head-how-full = الامتلاء
sheet-head-done = تم
sheet-head-on-road = على الطريق
sheet-head-needed = اللازم
sheet-head-have = الموجود
sheet-head-out = خرج
sheet-short = ينقص { $count }
sheet-head-whole-day = اليوم كله
sheet-head-as-reported = حسب البلاغ
sheet-total-base = أساس، سائب
sheet-total-base-stock = أساس، من المخزون
sheet-total-water = ماء يضاف
sheet-total-binder = رابط، ساخن
sheet-total-stone = حصى التغطية
sheet-total-spoil = مخلفات، سائبة
sheet-total-work = العمل عند الحفر
sheet-day-by-hand = اليوم عدًّا باليد:
sheet-suffices = احتمال ألا ينفد شيء طوال اليوم { $chance }.
sheet-p10-p50-p90 = P10 وP50 وP90: من مجموع اليوم، مرة وخمس وتسع من عشر دون ذلك.

sheet-cautions = تنبيهات
sheet-caution-traffic = حركة المرور:
sheet-caution-traffic-text = لا عمل خارج المساحة المغلقة؛ ملابس عالية الوضوح؛ مكان للتنحّي؛ توقف إن نقصت أداة.
sheet-caution-hot-binder = رابط ساخن:
sheet-caution-hot-binder-text = يحرق: قفازات وواقي وجه وأكمام طويلة؛ الجلد المحروق تحت ماء بارد ثم الطبيب، ولا يُنزع الرابط.
sheet-caution-cutback = أبخرة وحريق:
sheet-caution-cutback-text = البيتومين المسيّل يطلق مذيبًا: لا لهب ولا تدخين ولا ضخ قرب اشتعال؛ مطفأة في المتناول.
sheet-caution-emulsion = مستحلب:
sheet-caution-emulsion-text = لا يُغلى ولا يُترك ليتجمد، ولا يوضع في خزان مع رابط آخر؛ العيون والجلد مغطاة.
sheet-caution-dust = غبار السيليكا:
sheet-caution-dust-text = القصّ بالماء أو بكمامة مخصصة له.
sheet-caution-services = خدمات مدفونة:
sheet-caution-services-text = اسأل وعلِّم قبل الحفر؛ وعند الشك توقف.
sheet-caution-vibration = اهتزاز وضجيج:
sheet-caution-vibration-text = التناوب على المدحلة واللوح والكسارة؛ واقيات الأذن.
sheet-caution-lifting = الرفع:
sheet-caution-lifting-text = شخصان أو آلة لكل ثقيل؛ والظهر مستقيم.
sheet-caution-weather = حر وبرد:
sheet-caution-weather-text = ماء وظل واستراحات؛ ليرعَ بعضكم بعضًا.
sheet-caution-drains = مصارف ومياه:
sheet-caution-drains-text = غطِّ المداخل؛ لا رابط ولا مخلفات ولا ماء غسل في المصارف.
sheet-cautions-usual = هذه التنبيهات المعتادة لا كلها. الأنظمة المحلية وصحائف السلامة ومن تدرّب وخُوِّل للعمل أولًا.
sheet-cautions-today = تنبيهات لمواد اليوم ومعداته
sheet-proposal = الترتيب مقترح.
sheet-proposal-decides = القرار لنظام ضبط المرور المحلي وللشخص المخوَّل بموجبه.
sheet-sign-crew-leader = رئيس الفريق
sheet-sign-authorised = الشخص المخوَّل بضبط المرور
sheet-sign-date-time = التاريخ والوقت

sheet-left-out = المتروك:
sheet-input = البيانات:
sheet-details-behind = التفاصيل خلف هذه الورقة.
sheet-left-out-of-work-plan = هذا الملف جولة من خطة عمل؛ وما لا تنجزه أي جولة في work-plan.json الخاص بها.
sheet-left-out-none = كل حفرة صالحة للتخطيط في هذا الملف.
sheet-left-out-summary = { $count ->
    [one] حفرة واحدة ليست في هذا الملف
    [two] حفرتان ليستا في هذا الملف
    [few] { $count } حفر ليست في هذا الملف
   *[other] { $count } حفرة ليست في هذا الملف
}، { $overdue ->
    [0] لا متأخر منها
   *[other] المتأخر منها { $overdue }
}: { $reasons }.
sheet-left-out-less-urgent = أقل إلحاحًا مما يملأ اليوم
sheet-left-out-not-worth = لا تستحق وقتها
sheet-left-out-no-window = لا فترة كافية في اليوم
sheet-left-out-exceeds-shift = أطول من الوردية
sheet-left-out-exceeds-truck = أكثر مما تحمله الشاحنة
sheet-left-out-unreachable = لا طريق يؤدي إليها ويعود
sheet-left-out-not-a-patch = ليست ترقيعًا: اسأل المهندس
sheet-left-out-no-crew = لا فريق لديه معداتها
sheet-left-out-as-asked = تُركت كما طُلب
sheet-left-out-off-roads = خارج طرق هذه المنطقة
sheet-left-out-other = { $count } لأسباب أخرى
sheet-reason-of-its-own = لكل منها سببه
sheet-more-left-out = وغيرها { $count } أقل إلحاحًا؛ كلها في plan.json
sheet-more-problems = وغيرها { $count }، كلها في plan.json
sheet-and-more = وغيرها { $count }
sheet-input-of-work-plan = وما كان خطأ في البيانات هناك أيضًا.
sheet-input-fine = لا خطأ في البيانات.
sheet-input-summary = { $count ->
    [one] مشكلة واحدة في البيانات
    [two] مشكلتان في البيانات
    [few] { $count } مشاكل في البيانات
   *[other] { $count } مشكلة في البيانات
}، { $refused ->
    [0] لا سجل مرفوض
    [one] سجل واحد مرفوض
    [two] سجلان مرفوضان
    [few] { $refused } سجلات مرفوضة
   *[other] { $refused } سجلًا مرفوضًا
}.
sheet-signs-to-take = لافتات تؤخذ، كل منها مع حاملها
sheet-not-a-patch = ليس ترقيعًا: اسأل المهندس
sheet-not-in-pack = ليس في هذا الملف، الأكثر إلحاحًا أولًا (يوم بخط عريض: متأخر؛ يوم مع ؟: قد تسوء منه)
sheet-what-was-wrong = ما كان خطأ في البيانات
sheet-head-hole = حفرة
sheet-head-road = طريق
sheet-head-severity = شدة
sheet-head-mend-by = الموعد
sheet-head-work = عمل
sheet-head-why-no-patch = أين، لماذا ليس ترقيعًا، وما يلزم الترقيع (P90)
sheet-head-where = أين
sheet-head-record = سجل
sheet-head-wrong = ما كان خطأ؛ وما يكون صوابًا
sheet-engineer-figures = القصّة { $area }، بعمق حتى { $depth }؛ أساس { $base }، مخلفات { $spoil }، عمل حتى { $work }

sheet-fact-latitude = خط العرض، خط الطول
sheet-fact-work-space = مساحة العمل عند المسافة
sheet-fact-heads = اتجاه الحارة المغلقة
sheet-fact-speed = حد السرعة
sheet-fact-lanes = الحارات
sheet-lanes-sealed = { $lanes }، المرصوف { $width }
sheet-fact-keeps = السير على
sheet-fact-left-open = يبقى مفتوحًا
sheet-fact-duration-class = صنف المدة
sheet-fact-set-up = النصب والرفع
sheet-fact-busiest-hour = ساعة الذروة
sheet-fact-shared = مشتركة
sheet-chainage-rule = تُعدّ المسافة من { $from } نحو { $towards }.
sheet-before-place = { $distance } قبل { $place }
sheet-past-place = { $distance } بعد { $place }
sheet-before-place-range = { $near } إلى { $far } قبل { $place }
sheet-past-place-range = { $near } إلى { $far } بعد { $place }
sheet-queue-clears = { $flow } مركبة/س: توقف { $stop }، تنتظر { $count } إلى { $vehicles }، طول الرتل { $back }
sheet-queue-none = { $flow } مركبة/س، والقدرة { $most } مركبة/س: لا رتل
sheet-queue-grows = { $flow } مركبة/س، والقدرة { $most } مركبة/س: يتزايد الرتل
sheet-queue-unknown = العدد غير معروف، يصلح حتى { $most } مركبة/س
sheet-sharing-saves = { $holes }، منطقة واحدة: توفّر { $saved }
sheet-sharing-saves-and-takes = { $holes }، منطقة واحدة: توفّر { $saved } وتزيد { $more }
sheet-sharing-takes = { $holes }، منطقة واحدة: تزيد { $more }
sheet-sharing-as-long = { $holes }، منطقة واحدة: كما لو كانت منفصلة
sheet-layout-source = الترتيب: { $source }.
sheet-placing = النصب
sheet-removing = الرفع
sheet-in-this-order = ، بهذا الترتيب
sheet-right-left = اليمين واليسار كما يراهما السائق.
sheet-head-number = رقم
sheet-head-device = الأداة
sheet-head-for = لحركة
sheet-head-from-work = من مساحة العمل
sheet-head-side = الجانب، من المحور
sheet-head-step = خطوة
sheet-head-in = عاد
sheet-head-count-back = العدّ عند الرجوع
sheet-head-list = القائمة
sheet-traffic-our-lane = حارتنا
sheet-traffic-oncoming = المقابل
sheet-traffic-joining = الملتقي
sheet-on-side-road = على { $road }، { $distance } من تقاطعه عند { $junction }
sheet-spot-before = { $distance } قبلها
sheet-spot-past = { $distance } بعدها
sheet-spot-inside = { $distance } داخلها
sheet-spot-at-start = عند بدايتها
sheet-spot-at-end = عند نهايتها
sheet-spot-its-start = بدايتها
sheet-spot-its-end = نهايتها
sheet-spot-whole = على طولها كله
sheet-spot-between = من { $from } إلى { $to }
sheet-every = كل { $distance }
sheet-apart = بفواصل { $range }
sheet-side-by-side = جنبًا إلى جنب
sheet-drive = قيادة { $distance }
sheet-walk = مشي { $distance }
sheet-turn = { $count ->
    [one] استدارة
    [two] استدارتان
    [few] { $count } استدارات
   *[other] { $count } استدارة
}
sheet-way-time = { $way }: { $time }
sheet-cuts-in-zone = القصّات في هذه المنطقة
sheet-remarks-behind = { $count ->
    [one] ملاحظة في الصفحة التالية: اقرأها قبل نصب أي شيء.
    [two] ملاحظتان في الصفحة التالية: اقرأهما قبل نصب أي شيء.
    [few] { $count } ملاحظات في الصفحة التالية: اقرأها قبل نصب أي شيء.
   *[other] { $count } ملاحظة في الصفحة التالية: اقرأها قبل نصب أي شيء.
}
sheet-remarks-on-zone = ملاحظات على منطقة العمل
sheet-alt-place-map = خريطة الجوار مع مكان العمل
sheet-alt-zone = مخطط منطقة العمل بكل الأدوات والمسافات

sheet-names-and-more = { $names } وغيرها { $count }
sheet-size-corners = { $size }، الزوايا { $corners }
sheet-size-deep = { $size }، بعمق { $depth }
sheet-outline = محيط مرسوم
sheet-fact-chainage = المسافة
sheet-fact-place = المكان
sheet-fact-reported = المبلَّغ
sheet-fact-mend-by = الموعد
sheet-fact-work = العمل
sheet-fact-diagonals = القطران
sheet-fact-severity = الشدة
sheet-fact-compact-with = الدمك بـ
sheet-place-lane = الحارة
sheet-place-wheel-path = مسار العجلات
sheet-place-edge = الحافة
sheet-place-shoulder = الكتف
sheet-place-centre = خط المنتصف
sheet-holes-of-one-cut = { $count } حفرة في قصّة واحدة: { $sizes }
sheet-so-long = بطول { $range }
sheet-so-wide = بعرض { $range }
sheet-so-deep = بعمق { $range }
sheet-reported-often = { $name } عدد البلاغات { $count }: { $reports }
sheet-reported-often-since = { $name } عدد البلاغات { $count }، أولها { $first }: { $reports }
sheet-reports-more = وغيرها { $count } في plan.json
sheet-by-hand = عدًّا باليد:
sheet-head-quantity = الكمية
sheet-head-p10-to-p90 = P10 إلى P90
sheet-head-how = طريقة الحساب
sheet-head-how-metric = طريقة الحساب، بالمتري
sheet-quantity-cut-area = القصّة، المساحة
sheet-quantity-cut-length = القصّة، طول النشر
sheet-quantity-depth = عمق الحفرة المحفورة
sheet-quantity-layers = الطبقات
sheet-quantity-layer-compacted = الطبقة، مدموكة
sheet-quantity-layer-loose = الطبقة، سائبة
sheet-quantity-base-compacted = أساس مدموك مع التحديب
sheet-quantity-base-loose = أساس سائب للفرش
sheet-quantity-base-dry = أساس، كتلة جافة
sheet-quantity-base-stock = أساس من المخزون
sheet-quantity-water = ماء يضاف
sheet-quantity-water-to-dry = ماء يُجفَّف أولًا
sheet-quantity-passes = أشواط الدمك
sheet-quantity-rolling = الدحل، كل الطبقات
sheet-quantity-seal-area = الطبقة السطحية، المساحة
sheet-quantity-binder-rate = معدل الرابط
sheet-quantity-binder-hot = رابط، ساخن
sheet-quantity-stone-rate = معدل الحصى
sheet-quantity-stone = حصى التغطية
sheet-quantity-stone-loose = حصى التغطية، سائب
sheet-quantity-spoil-loose = مخلفات، سائبة
sheet-quantity-spoil-mass = مخلفات، كتلة
sheet-passes-how = { $lanes ->
    [one] كل طبقة، شريط واحد عرضًا؛ { $compactor }
    [two] كل طبقة، شريطان عرضًا؛ { $compactor }
    [few] كل طبقة، { $lanes } أشرطة عرضًا؛ { $compactor }
   *[other] كل طبقة، { $lanes } شريطًا عرضًا؛ { $compactor }
}
sheet-container = { $count } × { $name } سعة { $volume }
sheet-containers = { $containers }؛ يبقى { $rest }
sheet-compactor-last-layer = { $machine }، والطبقة الأخيرة { $last }
sheet-head-stage = المرحلة
sheet-head-time = الوقت
sheet-head-look = انظر وعلِّم، واكتب ما قيس
sheet-stage-traffic-control-out = نصب ضبط المرور
sheet-stage-mark-out = التعليم
sheet-stage-cut-out = القصّ والتفريغ
sheet-stage-fill = الردم
sheet-stage-compact = الدمك
sheet-stage-seal = الرشّ والتغطية
sheet-stage-clean-up = التنظيف
sheet-stage-traffic-control-in = رفع ضبط المرور
sheet-check-stands = قائم كما في ورقة المنطقة
sheet-check-driven = مُرّ به ونُظر إليه
sheet-check-services = الخدمات معلَّمة
sheet-check-cleaned = الحفرة نُظّفت ونُظر إليها
sheet-check-lines = خطوط مستقيمة متعامدة في سطح سليم
sheet-check-outwards = من الوسط إلى الخارج
sheet-check-upright = الجوانب قائمة في 4 مواضع
sheet-check-bottom = القاع صلب ومستوٍ
sheet-check-spoil = المخلفات على الشاحنة
sheet-check-falls-apart = في اليد: يتفتت، أضف ماء
sheet-check-keeps-shape = يحفظ شكله
sheet-check-oozes = ينزّ، افرشه وجففه
sheet-check-loose = { $thickness } سائبًا لكل طبقة
sheet-check-compactor = بـ{ $machine }
sheet-check-edges = لا تلمس الأسطوانة الحواف
sheet-check-corners = الزوايا أولًا ثم إلى الداخل
sheet-check-passes = كل طبقة { $passes }
sheet-check-proud = الطبقة الأخيرة أعلى بـ { $proud }
sheet-check-clean-dry = نظيف وجاف
sheet-check-binder-at = الرابط عند { $temperature }
sheet-check-stone = الحصى حالًا، طبقة واحدة
sheet-check-bedded = يُدحل حتى يثبت
sheet-check-swept = كُنس: الطريق والكتف والمصارف
sheet-check-swept-again = مرة أخرى بعد { $first } و{ $second } س
sheet-check-tools = الأدوات والمواد معدودة
sheet-check-reverse = بالترتيب المعكوس
sheet-check-count = العائد = الخارج
sheet-check-opened = يُفتح بعد الحصى بـ { $wait }، { $speed } لمدة { $hours } س
sheet-field-time = الوقت
sheet-field-long = الطول
sheet-field-wide = العرض
sheet-field-photo = صورة
sheet-field-depth-found = العمق الفعلي
sheet-field-moisture = الرطوبة
sheet-field-percent = %
sheet-field-water = ماء
sheet-field-layer = طبقة { $layer }
sheet-field-passes = أشواط { $layer }:
sheet-field-proud = الارتفاع الزائد
sheet-field-binder = رابط
sheet-field-stone = حصى
sheet-field-crown = التحديب
sheet-if-deeper = إذا تبيّن أن الحفرة أعمق
sheet-head-depth-found = العمق
sheet-head-layers = الطبقات
sheet-head-base = أساس
sheet-head-loose = سائب
sheet-head-water = ماء
sheet-cautions-behind = التنبيهات، كاملة خلف الغلاف:
sheet-remarks = ملاحظات
sheet-alt-cut = مخطط القصّة بأبعادها
sheet-alt-section = مقطع بالطبقات
sheet-alt-pattern = ترتيب الدمك من الزوايا

# ما يعلّمه السجل
sheet-learnt-growth = تتوقع الخطة الآن حفرًا { $more ->
    [more] أكثر
   *[less] أقل
  } بنسبة { $percent }
sheet-learnt-base = تحمّل الخطة الآن مادة أساس { $more ->
    [more] أكثر
   *[less] أقل
  } بنسبة { $percent }
sheet-learnt-water = تحمّل الخطة الآن ماءً { $more ->
    [more] أكثر
   *[less] أقل
  } بنسبة { $percent }
sheet-learnt-binder = تحمّل الخطة الآن رابطًا { $more ->
    [more] أكثر
   *[less] أقل
  } بنسبة { $percent }
sheet-learnt-cover-stone = تحمّل الخطة الآن حصى تغطية { $more ->
    [more] أكثر
   *[less] أقل
  } بنسبة { $percent }
sheet-learnt-time = تخصص الخطة الآن وقتًا { $more ->
    [more] أطول
   *[less] أقصر
  } بنسبة { $percent }
sheet-learnt-repairs-district = { $count ->
    [one] إصلاح واحد في المنطقة
    [two] إصلاحين في المنطقة
    [few] { $count } إصلاحات في المنطقة
    [many] { $count } إصلاحًا في المنطقة
   *[other] { $count } إصلاح في المنطقة
}
sheet-learnt-repairs-there = { $count ->
    [one] إصلاح واحد هناك
    [two] إصلاحين هناك
    [few] { $count } إصلاحات هناك
    [many] { $count } إصلاحًا هناك
   *[other] { $count } إصلاح هناك
}
sheet-learnt-repairs-crew = { $count ->
    [one] إصلاح واحد لهذا الفريق
    [two] إصلاحين لهذا الفريق
    [few] { $count } إصلاحات لهذا الفريق
    [many] { $count } إصلاحًا لهذا الفريق
   *[other] { $count } إصلاح لهذا الفريق
}
sheet-learnt-took = المستهلك في { $repairs } بلغ { $times } مرة قدر المخطط
sheet-learnt-turned-out = المحفور في { $repairs } بلغ { $times } مرة قدر ما تتوقعه القواعد
sheet-learnt-time-taken = الوقت في { $repairs } بلغ { $times } مرة قدر الوقت المخطط
sheet-learnt-believed = { $median } (من { $low } إلى { $high })
sheet-learnt-district = { $does }، لأن { $took }؛ وبالترجيح مع القواعد { $believed }
sheet-learnt-road = { $does } على { $road }، لأن { $took }؛ وبالترجيح مع غيرها { $believed }
sheet-learnt-crew = { $does } للفريق { $crew }، لأن { $took }؛ وبالترجيح مع غيرها { $believed }
sheet-learnt-kept = { $sentence }؛ ضمن الحدود من { $least } إلى { $most }
sheet-roads-motorway = الطرق السريعة
sheet-roads-trunk = الطرق الرئيسية الكبرى
sheet-roads-primary = طرق الدرجة الأولى
sheet-roads-secondary = طرق الدرجة الثانية
sheet-roads-tertiary = طرق الدرجة الثالثة
sheet-roads-unclassified = الطرق غير المصنفة
sheet-roads-residential = الشوارع السكنية
sheet-roads-service = طرق الخدمة
sheet-roads-track = المسالك
sheet-roads-with-shoulder = { $roads } ذات الكتف
sheet-roads-without-shoulder = { $roads } بلا كتف
