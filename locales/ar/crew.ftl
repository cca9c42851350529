# هاتف الفرقة.
crew-nav = أجزاء تطبيق الفرقة
crew-nav-round = الجولة
crew-nav-new-hole = حفرة جديدة
crew-nav-nearby = معاينة
crew-nav-queue = الانتظار
crew-back = رجوع
crew-nothing-here = لا شيء هنا.
crew-today = اليوم
crew-yes = نعم
crew-no = لا
crew-done = تم
crew-note = ملاحظة
crew-less = { $what }: أقل
crew-more = { $what }: أكثر
crew-larger = { $what }: تكبير
crew-smaller = { $what }: تصغير
crew-minutes = { $n } دقيقة
crew-planned-is = المخطط: { $value }
crew-spread = (8 من 10: من { $low } إلى { $high })
crew-install-words = ضع التطبيق على الشاشة الرئيسية: يفتح عندئذ دون إشارة كأي تطبيق آخر.
crew-install = تثبيت
crew-not-now = ليس الآن

# what is queued
crew-queue = ما تم الإبلاغ عنه
crew-badge-sent = أُرسل الكل
crew-badge-queued = { $count } في الانتظار
crew-badge-trouble-queued = { $trouble }، { $count } في الانتظار
crew-badge-refused = { $count } مرفوض
crew-queue-sum = في الانتظار: { $waiting }. صور في الانتظار: { $photos }. مرفوض: { $refused }.
crew-queue-last = آخر مطابقة مع المكتب في { $at }.
crew-queue-empty = لم يُبلَّغ عن شيء على هذا الهاتف بعد.
crew-sync-now = أرسل واستقبل الآن
crew-sync-running = جارٍ الإرسال والاستقبال
crew-told-waiting = في الانتظار
crew-told-sent = أُرسل
crew-told-refused = مرفوض
crew-refused-why = يقول الخادم:
crew-trouble-says = يقول:
crew-put-right = تصحيح
crew-tell-again = إبلاغ من جديد
crew-drop = حذف
crew-drop-sure = نعم، احذفه نهائيًا
crew-withdraw = كان هذا خطأ
crew-withdraw-sure = نعم، اسحبه
crew-withdrawn = مسحوب
crew-sent-count = أُرسل: { $count }
crew-photos = صور
crew-photo = التقط صورة
crew-photo-of = صورة: { $note }
crew-photo-no-room = لا مكان للصورة على هذا الهاتف. احذف شيئًا آخر والتقطها من جديد.
crew-photos-kept = { $count ->
    [one] حُفظت صورة واحدة
    [two] حُفظت صورتان
    [few] حُفظت { $count } صور
   *[other] حُفظت { $count } صورة
  }
crew-kind-hole-reported = حفرة جديدة
crew-kind-hole-measured = قياس حفرة
crew-kind-zone-opened = فتح منطقة العمل
crew-kind-zone-closed = إغلاق منطقة العمل
crew-kind-hole-cut = قص وحفر
crew-kind-layer-placed = وضع طبقة
crew-kind-sealed = ختم السطح
crew-kind-opened-to-traffic = فتح للمرور
crew-kind-inspected = معاينة إصلاح
crew-kind-failed = فشل إصلاح
crew-kind-stock-moved = ناتج الحفر على الشاحنة
crew-kind-stock-counted = جرد المخزون
crew-kind-time-booked = تسجيل الوقت
crew-kind-photo-taken = صورة
crew-kind-corrected = تصحيح
crew-kind-signed = توقيع

# the round
crew-which = أي فرقة؟
crew-no-rounds = لا يعرف هذا الهاتف جولة مخططة للفرقة. مع الإشارة يبحث من جديد تلقائيًا.
crew-no-files = رسومات هذا اليوم وقوائمه ليست على الهاتف. يُعرض ما في السجل؛ ومع الإشارة يأتي الباقي تلقائيًا إن أعدّه المكتب.
crew-next-site = الموقع { $n } من { $of }
crew-day-done = أُنجزت كل مواقع هذا اليوم.
crew-sites = المواقع
crew-sites-count = { $count ->
    [one] موقع واحد
    [two] موقعان
    [few] { $count } مواقع
   *[other] { $count } موقعًا
  }
crew-holes-count = { $count ->
    [one] حفرة واحدة
    [two] حفرتان
    [few] { $count } حفر
   *[other] { $count } حفرة
  }
crew-devices-count = { $count ->
    [one] أداة واحدة
    [two] أداتان
    [few] { $count } أدوات
   *[other] { $count } أداة
  }
crew-layers-count = { $count ->
    [one] طبقة واحدة
    [two] طبقتان
    [few] { $count } طبقات
   *[other] { $count } طبقة
  }
crew-drive = قيادة { $way }، { $time }؛ الانطلاق في { $from }
crew-other-days = أيام أخرى
crew-daylight = الشروق { $sunrise }، الغروب { $sunset }
crew-sketch = طريق اليوم ومواقعه
crew-site-planned = مطلوب
crew-site-open = قيد العمل
crew-site-mended = اللافتات ما زالت قائمة
crew-site-done = تم
crew-load = الحمولة
crew-trip = الرحلة { $n }
crew-suffices = احتمال أن تكفي: { $chance }
crew-load-devices = لافتات: { $signs }، أقماع: { $cones }
crew-load-planned-only = كما خُطط للحفر، دون هامش.
crew-nearest = { $what }: المزيد في { $place }، على بُعد { $time }
crew-nearest-short = { $what }: المزيد في { $place }
crew-changed = تغيّرت الخطة
crew-changed-seen = اطّلعت
crew-change-added = جديد: { $road }
crew-change-removed = أُزيل: { $road }
crew-change-moved = { $road } صار في { $day }
crew-change-amounts = { $road }: كميات أخرى
crew-change-order = ترتيب المواقع مختلف

# a site
crew-site = موقع
crew-site-gone = لم يعد هذا في جولات الفرقة.
crew-where = أين
crew-chainage = على بُعد { $way } من { $from } باتجاه { $towards }
crew-windows = يجوز تعطيل المرور بين
crew-zone = منطقة العمل
crew-zone-none = لم يُخطط ترتيب للمرور.
crew-zone-proposal = الترتيب مقترح. القرار لقواعد المرور المحلية وللشخص المخوَّل بموجبها.
crew-zone-opened-by = فتحها { $who } في { $at }؛ الأدوات الموضوعة: { $count }
crew-zone-closed-by = أغلقها { $who } في { $at }؛ الأدوات المستعادة: { $count }
crew-zone-not-open = المنطقة غير مفتوحة. لا يدخل أحد المسار قبل وضع اللافتات.
crew-remarks = ملاحظات على الترتيب
crew-repairs = الحفر
crew-hole-n = الحفرة { $n }
crew-next-hole = الحفرة التالية
crew-next-stop = الموقع التالي
crew-to-site = إلى الموقع
crew-drawing-place = أين يقع
crew-drawing-zone = منطقة العمل
crew-drawing-cut = القص
crew-drawing-section = المقطع
crew-drawing-pattern = ترتيب المرّات

# devices
crew-devices = الأدوات
crew-devices-out = وضع الأدوات
crew-devices-back = استعادة الأدوات
crew-turn-out = وضع
crew-turn-back = استعادة
crew-caution-out = مرور جارٍ. ملابس عاكسة، الوجه نحو المرور، ومكان للتنحّي. توقفوا إذا نقصت أداة.
crew-caution-back = مرور جارٍ. بعكس ترتيب الوضع: ما يحميكم يُرفع آخرًا.
crew-count-out = موضوع: { $n } من { $of }
crew-count-back = مستعاد: { $n } من { $of }
crew-step-opposing-advance = لافتات التنبيه، الاتجاه المقابل
crew-step-advance = لافتات التنبيه، مسارنا
crew-step-joining = لافتات على الطرق الملتقية
crew-step-joining-station = حاملو الأعلام على الطرق الملتقية
crew-step-opposing-station = حامل العلم، الاتجاه المقابل
crew-step-station = حامل العلم، مسارنا
crew-step-lane = المسار، مع اتجاه المرور
crew-step-end-of-opposing = لافتة النهاية، الاتجاه المقابل
crew-step-end-of-work = لافتة النهاية، مسارنا
crew-step-to-the-work = إلى موضع العمل
crew-drive-on = قيادة { $way }
crew-walk = مشي { $way }
crew-turn-round = استدارة
crew-before-work = قبل العمل بـ { $way }
crew-at-work = عند العمل
crew-past-work = بعد العمل بـ { $way }
crew-our-lane = مسارنا
crew-oncoming = الاتجاه المقابل
crew-put-out = وُضع: { $what }
crew-taken-in = استُعيد: { $what }
crew-devices-planned = الأدوات المخططة: { $count }
crew-counted-out = الأدوات الموضوعة
crew-counted-back = الأدوات المستعادة
crew-went-out = وُضع: { $count }
crew-agreed = مرّ الشخص المخوَّل بالمركبة ووافق
crew-agreed-hint = دون ذلك لا تُعد المنطقة مفتوحة.
crew-not-all-out = غير مؤشَّر: { $count }
crew-open-zone = المنطقة مفتوحة
crew-open-again = إبلاغ عن الفتح من جديد
crew-fewer-back = { $count ->
    [one] ما زالت أداة واحدة على الطريق
    [two] ما زالت أداتان على الطريق
    [few] ما زالت { $count } أدوات على الطريق
   *[other] ما زالت { $count } أداة على الطريق
  }
crew-looked-for = مررنا بالمركبة وبحثنا عنها
crew-close-zone = المنطقة مغلقة
crew-close-missing = إغلاق، الناقص: { $count }

# a repair
crew-repair = إصلاح
crew-stages = المراحل
crew-stage-traffic-out = وضع تنظيم المرور
crew-stage-mark-out = التحديد
crew-stage-cut = القص والحفر
crew-stage-fill = الردم
crew-stage-compact = الدك
crew-stage-seal = ختم السطح
crew-stage-clean-up = التنظيف والفتح
crew-stage-traffic-in = رفع تنظيم المرور
crew-how = كيف
crew-stage-back = المرحلة السابقة
crew-next-stage = المرحلة التالية
crew-tell-cut = إبلاغ: تم القص
crew-tell-compact = إبلاغ: وُضعت الطبقة { $n }
crew-tell-seal = إبلاغ: خُتم السطح
crew-tell-clean-up = إبلاغ: مفتوح للمرور
crew-cautions = تحذيرات
crew-checks = الفحوص
crew-check-agreed = الترتيب متفق عليه مع الشخص المخوَّل
crew-check-seen-through = مررنا مرة: كل لافتة مرئية
crew-check-vest = الملابس العاكسة ملبوسة
crew-check-cleaned = نُظفت الحفرة وفُحصت
crew-check-sound = الخطوط في رصف سليم، على 100 مم خارج الحفرة على الأكثر
crew-check-straight = الخطوط مستقيمة والزوايا قائمة
crew-check-services = لا كابلات ولا أنابيب تحتها، أو هي معلَّمة
crew-check-centre-out = حُفرت من الوسط إلى الخارج
crew-check-spoil-off = ناتج الحفر على الشاحنة، ولا شيء على الرصف أو الكتف أو قرب مصرف
crew-check-same-kind = نفس نوع أساس الطريق
crew-check-spread = مفروشة بالتساوي حتى الزوايا
crew-check-edges = حواف القص محمية من الأسطوانة
crew-check-corners-first = من الزوايا نحو الوسط
crew-check-proud = الطبقة الأخيرة أعلى قليلًا من الطريق
crew-check-swept = السطح مكنوس ونظيف
crew-check-overlap = الرابط يغطي 80 مم من الرصف السليم
crew-check-one-layer = طبقة واحدة من الحصى، فورًا
crew-check-bedded = مدحولة حتى يثبت الحصى
crew-check-swept-up = مكنوس؛ لا شيء سائب على الرصف
crew-check-drains = الكتف والمصارف نظيفة
crew-check-tools = عُدّت الأدوات والمواد المتبقية
crew-check-reverse = رُفعت الأدوات بالترتيب المعاكس
crew-check-nothing-left = مررنا مرة: لم يبق شيء
crew-cut-length = طول القص، مع الطريق
crew-cut-width = عرض القص، عبر الطريق
crew-area-is = المساحة: { $area }
crew-depth-planned = العمق المخطط
crew-depths = العمق في عدة مواضع
crew-depth-n = العمق { $n }
crew-depth-another = موضع آخر
crew-deeper-than-planned = أعمق من المخطط: { $deepest } بدل { $planned }. انظر ما يلزم الآن.
crew-bigger = أكبر من المخطط
crew-bottom-firm = هل القاع متماسك؟
crew-bottom-soft = احفر حتى أرض متماسكة أو اسأل المهندس. الترقيع على أرض رخوة يهبط.
crew-sides-upright = هل الجوانب قائمة ومتماسكة؟
crew-wetness = ما مدى البلل في الأسفل؟
crew-wetness-dry = جاف
crew-wetness-damp = رطب
crew-wetness-wet = مبتل
crew-wetness-seepage = ماء يتسرب
crew-wetness-pumping = المرور يضخ الماء
crew-water-below = الماء يأتي من مكان ما. أبلغ المكتب: دون تصريف لن يدوم الإصلاح.
crew-spoil = ناتج الحفر المُزال
crew-in-counts = العد بـ { $plural }
crew-in-measures = إدخال القياس
crew-layer-of = الطبقة { $n } من { $of }
crew-layer-n = الطبقة { $n }
crew-layer-another = طبقة أخرى
crew-loose-thickness = افرش { $loose } سائبًا؛ يصير { $firm }
crew-moisture = قبضة مضغوطة
crew-moisture-falls-apart = تتفتت
crew-moisture-falls-apart-do = جافة جدًا: أضف ماء
crew-moisture-keeps-shape = تحفظ شكلها
crew-moisture-keeps-shape-do = مناسبة
crew-moisture-oozes = ترشح
crew-moisture-oozes-do = مبتلة جدًا: افرشها ودعها تجف
crew-base-used = الأساس المستعمل في هذه الطبقة
crew-water-used = الماء المضاف إلى هذه الطبقة
crew-base-whole = الأساس للحفرة كلها، سائبًا
crew-water-whole = الماء للحفرة كلها
crew-passes-still = مرّات دون اهتزاز
crew-passes-vibrating = مرّات مع اهتزاز، أو باللوح أو المدك
crew-layer-thickness = السماكة بعد الدك
crew-caution-binder = الرابط يحرق: واقي وجه وقفازات وأكمام طويلة وماء بارد قريب. لا لهب قرب الأبخرة. القرار لصحيفة السلامة.
crew-surface-dry = هل السطح جاف؟
crew-surface-wet = لا تختم سطحًا مبتلًا: لن يثبت الرابط.
crew-binder = الرابط، الدرجة أو المنتج
crew-binder-hint = كما كُتب على البرميل.
crew-binder-used = الرابط المستعمل، كما رُش
crew-binder-whole = الرابط، كما يُرش
crew-stone-used = الحصى المستعمل
crew-stone-whole = الحصى
crew-sealed-area = المساحة المختومة
crew-crown = الارتفاع فوق الطريق حولها
crew-surface-temperature = حرارة السطح
crew-opening-after = أول مرور ليس قبل { $time } من آخر حصى
crew-opening-from = أول مرور من { $at } (بعد { $time })
crew-opening-now = أول مرور من { $at }: إذا لم تدُر حصاة تحت عجلة منعطفة
crew-opening-too-cold = أبرد من جدول الخطة. اسأل قبل الختم أو الفتح.
crew-opening-row = من { $from }: { $time }
crew-opening-slow = { $speed } في الساعة على الأكثر لمدة { $hours } ساعة. القرار للشخص المخوَّل.
crew-opened-by = فتحه للمرور { $who } في { $at }
crew-sign = الوقت والتوقيع
crew-time-minutes = الدقائق عند هذا الإصلاح
crew-since-begun = { $n } دقيقة منذ البدء على هذا الهاتف
crew-people = الأشخاص
crew-unticked = فحوص غير مؤشَّرة: { $count }
crew-sign-now = أنا مسؤول عنه: { $name }
crew-signed-by = وقّعه { $who }، { $at }
crew-repair-planned = مخطط
crew-repair-cut-out = تم القص
crew-repair-filling = قيد الردم
crew-repair-sealed = خُتم
crew-repair-open = مفتوح للمرور
crew-repair-failed = فشل

# bigger than planned
crew-depth-now = العمق الآن
crew-measure-photo = القياس من صورة
crew-layers-now = { $count ->
    [one] طبقة واحدة من { $thickness }
    [two] طبقتان من { $thickness } لكل منهما
    [few] { $count } طبقات من { $thickness } لكل منها
   *[other] { $count } طبقة من { $thickness } لكل منها
  }
crew-material = المادة
crew-now-needs = اللازم الآن
crew-more-than-planned = مقابل الخطة
crew-good-base = أساس، سائب
crew-good-water = ماء
crew-good-binder = رابط
crew-good-cover-stone = حصى
crew-good-spoil = ناتج حفر
crew-truck-enough = بحسب الخطة تحمل الشاحنة ما يكفي، إن لم يُستهلك في غيرها أكثر.
crew-truck-short = بحسب الخطة ينقص الشاحنة:
crew-beyond-table = أعمق من جدول الخطة ({ $last }). الكميات بنسبة العمق: تقدير. توقف واسأل المكتب.
crew-bigger-how = حُسب على هذا الهاتف من سطر الخطة لـ { $row } بنسبة المساحة ({ $area } بدل { $planned }). المكتب يخطط من جديد.
crew-bigger-no-plan = جدول الخطة ليس على هذا الهاتف: لا يمكن حساب الطبقات والكميات هنا. أبلغ عن المقاسات؛ المكتب يحسب.
crew-ask-replan = إبلاغ وطلب خطة جديدة
crew-replan-waiting = الطلب في الانتظار؛ يُرسل مع أول إشارة.
crew-replan-sent = الطلب لدى المكتب.
crew-replan-refused = رُفض الطلب. انظر قائمة الانتظار.

# a new hole, an older repair
crew-caution-stop = توقف حيث يكون آمنًا فقط. لا أحد على الطريق دون تنظيم مرور.
crew-here = يعرف هذا الهاتف مكانه بدقة { $accuracy }.
crew-here-looking = جارٍ البحث عن مكان الهاتف.
crew-here-denied = لا يُسمح للهاتف بقول مكانه. اسمح بذلك في المتصفح أو اكتب المكان.
crew-here-none = لا يعرف هذا الهاتف مكانه. اكتب المكان.
crew-here-taken = من الهاتف، بدقة { $accuracy }
crew-take-here = الحفرة هنا
crew-lat = خط العرض
crew-lon = خط الطول
crew-hole-length = الطول، مع الطريق
crew-hole-width = العرض، عبر الطريق
crew-hole-depth = أكبر عمق
crew-lane-position = أين عبر الطريق؟
crew-lane-lane = في المسار، بين مسلكي العجلات
crew-lane-wheel-path = في مسلك العجلات
crew-lane-edge = عند حافة السطح المختوم
crew-lane-shoulder = على الكتف
crew-lane-centre = عند خط الوسط
crew-place-first = المكان ناقص
crew-tell-hole = إبلاغ عن الحفرة
crew-hole-told = تم الإبلاغ. محفوظ على هذا الهاتف ويُرسل عند توفر الإشارة.
crew-holes-told = أُبلغ عنها على هذا الهاتف
crew-nearby-words = إصلاحات منجزة، الأقرب أولًا. انظر كيف تصمد.
crew-nearby-none = لا يعرف هذا الهاتف إصلاحًا منجزًا.
crew-inspect = معاينة إصلاح
crew-found = ماذا ترى؟
crew-found-holds = صامد
crew-found-holds-hint = مستوٍ ومحكم والحصى في مكانه
crew-found-worn = صامد لكنه يتآكل
crew-found-worn-hint = حصى مفقود، رابط طافح، حواف مفتوحة
crew-found-failed = فشل
crew-found-failed-hint = حفرة من جديد: يُبلَّغ عنها كحفرة جديدة أيضًا
crew-tell-found = إبلاغ عما شوهد

# told differently
crew-differ = إبلاغان مختلفان على هاتفين
crew-differ-words = تحدثا وقيسا من جديد؛ من يبلغ ثانية يصحح.
crew-differ-counts = المعتمد: { $value }، { $who }
crew-differ-other = إبلاغ مختلف: { $value }، { $who }
crew-field-area-m2 = مساحة القص
crew-field-depths-mm = الأعماق
crew-field-bottom-firm = القاع متماسك
crew-field-sides-upright = الجوانب قائمة
crew-field-wetness = البلل
crew-field-zone = المنطقة
crew-field-thickness-mm = السماكة
crew-field-base-loose-m3 = أساس، سائب
crew-field-water-l = ماء
crew-field-moisture = الرطوبة في اليد
crew-field-passes-still = مرّات دون اهتزاز
crew-field-passes-vibrating = مرّات مع اهتزاز
crew-field-binder-l = رابط
crew-field-binder = منتج الرابط
crew-field-cover-stone-m3 = حصى
crew-field-sealed-area-m2 = المساحة المختومة
crew-field-crown-mm = الارتفاع فوق الطريق
crew-field-dry = السطح جاف
crew-field-devices-out = الأدوات الموضوعة
crew-field-devices-in = الأدوات المستعادة
crew-field-position = المكان
crew-field-road = الطريق
crew-field-layout = الترتيب
crew-field-stretches = المقاطع
crew-field-round = الجولة

# whose is what on the phone, and its room
crew-queue-others = { $count ->
    [one] تسجيل واحد ({ $count }) من { $who } ينتظر على هذا الهاتف. يُرسل حين يسجّل هذا الشخص دخوله عليه.
   *[other] تسجيلات { $who } المنتظرة على هذا الهاتف: { $count }. تُرسل حين يسجّل هذا الشخص دخوله عليه.
  }
crew-room = المساحة على هذا الهاتف
crew-room-taken = المشغول { $taken } من { $of }.
crew-room-kept = يحتفظ به المتصفح حتى عند ضيق المساحة.
crew-room-not-kept = قد يحذفه المتصفح عند ضيق المساحة. ضع التطبيق على الشاشة الرئيسية أو اطلب من المتصفح الاحتفاظ به.
crew-room-ask = اطلب من المتصفح الاحتفاظ به
crew-room-denied = لم يوافق المتصفح. ضع التطبيق على الشاشة الرئيسية واطلب مرة أخرى.
crew-room-goes = ما وصل إلى المكتب يُحذف من هنا تلقائيًا: الصور بعد { $photo ->
    [one] يوم واحد
   *[other] { $photo } أيام
  } (تبقى صورة صغيرة)، والباقي بعد { $sent } يومًا، والرسوم والقوائم بعد جولتها بـ { $file } أيام. ما ينتظر أو رُفض يبقى.

crew-photo-hole = من الصورة: مساحة الحفرة { $area } ± { $error }.
crew-photo-cut = القطع المقترح لها: { $area }، { $length } في { $width }. يعاين رئيس الفرقة الحفرة ويقرّر.
crew-photo-depth = أدخل العمق ليُقترح قطع.
crew-photo-no-signal = لا إشارة: حُفظ المحيط، ويُقترح القطع عند توفّر الإشارة.
crew-photo-not-signed-in = سجّل الدخول ليُقترح قطع.

# معاينة إصلاحات سابقة في الجولة
crew-look = معاينة إصلاح سابق
crew-look-open = بانتظار المعاينة
crew-look-passed = لم يُعاين
crew-look-along = على بعد { $way } من بداية الطريق
crew-look-why = السبب:
crew-look-pass = لا مكان آمنًا للتوقف
crew-look-was-passed = لم يُعاين: لم يوجد مكان آمن للتوقف. لم يُبلَّغ عن شيء، وسيخطط المكتب معاينته من جديد.
crew-look-again-on-list = إعادته إلى القائمة
crew-caution-look = توقفوا خارج مسار السير وعلى جهة الإصلاح. انتبهوا لحركة المرور عند النزول، ولا يخطُ أحد على الطريق. إن لم يوجد مكان آمن فتابعوا السير. القواعد المحلية لتنظيم المرور هي التي تقرر.
crew-done-there = ما أُنجز هناك
crew-done-there-unknown = ما أُنجز هناك غير موجود على هذا الهاتف.
crew-layers = الطبقات

# ما يراه الفريق حول عمله
crew-not-told = لم يُذكر
crew-drainage = كيف يخرج الماء من الطريق هنا؟
crew-drainage-hint = ليس إلزاميًا. إن اجتمع أكثر من حال: الأسوأ.
crew-drainage-ditch-works = الخندق يعمل
crew-drainage-kerb-and-gully = رصيف وبالوعة
crew-drainage-ditch-blocked = الخندق مسدود
crew-drainage-gully-blocked = البالوعة مسدودة
crew-drainage-high-verge = جانب الطريق أعلى منه
crew-drainage-no-drainage = لا شيء يصرفه
crew-drainage-standing-water = ماء راكد بجانبه
crew-base-kind = الأساس: نوعه أو مصدره
crew-base-kind-hint = ليس إلزاميًا، مثلًا: حصى مكسر 0/20 ومقلعه.
crew-weather = الطقس عند الختم
crew-weather-hint = ليس إلزاميًا. إن اجتمع أكثر من حال: الأخير منها.
crew-weather-dry = جاف
crew-weather-dry-hint = وجاف في اليوم السابق أيضًا
crew-weather-damp = رطب
crew-weather-damp-hint = ندى أو ضباب أو رذاذ
crew-weather-rain-within-a-day = مطر خلال يوم
crew-weather-rain-within-a-day-hint = في اليوم السابق، أو سيمطر غدًا
crew-weather-frost = صقيع
crew-weather-frost-hint = في الليلة الماضية، أو سيتجمد الليلة
crew-air-temperature = حرارة الهواء
crew-field-drainage = التصريف
crew-field-base = الأساس: نوعه أو مصدره
crew-field-weather = الطقس عند الختم
crew-field-air-temperature-c = حرارة الهواء
