# تقرير الشهر، مطبوعًا وصفحةً

report-title = { $month } { $year }
report-date = { $day } { $month } { $year }
report-about = ترقيع الطرق ذات المعالجة السطحية: ما أُنجز، وما كلّف، وما بقي، وما يدوم.
report-goes-on = الشهر لم ينته بعد: يُحسب ما قيل حتى { $day }.
report-footer = lengthsman { $version }، من السجل حتى الحدث { $event }
report-all = المجموع
report-named = { $what }: { $value }
report-price = { $amount } { $currency }
report-spread = { $middle } ({ $low }–{ $high })
report-road-not-known = طريق غير معروف
report-road = الطريق
report-days = { $count ->
    [one] يوم واحد
    [two] يومان
    [few] { $count } أيام
    [many] { $count } يومًا
   *[other] { $count } يوم
}

## What was done
report-done = ما أُنجز
report-repairs-opened = إصلاحات فُتحت للمرور
report-area-cut = المساحة المقطوعة
report-area-of-repairs = { $area } لإصلاحات عددها { $count }
report-month-before = الشهر السابق
report-repairs-counted = { $count ->
    [zero] لا إصلاحات
    [one] إصلاح واحد
    [two] إصلاحان
    [few] { $count } إصلاحات
    [many] { $count } إصلاحًا
   *[other] { $count } إصلاح
}
report-new-holes = حفر جديدة أُبلغ عنها
report-by-each-road = بحسب الطريق
report-more-roads = { $count ->
    [one] طريق آخر
    [two] طريقان آخران
    [few] { $count } طرق أخرى
    [many] { $count } طريقًا آخر
   *[other] { $count } طريق آخر
}
report-repairs = الإصلاحات
report-cost-of-month = كلفة الشهر
report-told-and-mended = حفر أُبلغ عنها وأُصلحت، شهرًا بشهر
report-told = أُبلغ عنها
report-mended = أُصلحت
report-told-and-mended-in = { $month }: أُبلغ عن { $told }، وأُصلح { $mended }

## What it cost
report-cost = ما كلّف
report-for = البند
report-money = المبلغ
report-share = الحصة
report-per-repair = للإصلاح الواحد
report-per-m2 = لكل م² مقطوع
report-per-ft2 = لكل قدم² مقطوع
report-not-every-area = لم تُذكر كل المساحات
report-planned-and-actual = المخطط والفعلي، للإصلاحات التي ذُكر لها الاثنان
report-part-of-planned = الفعلي نسبةً إلى المخطط
report-planned = المخطط
report-actual = الفعلي
report-more = الزيادة
report-of-planned = { $what }: { $share } من المخطط
report-part-labour = الأفراد
report-part-plant = الشاحنات والمعدات
report-part-base = مادة الأساس
report-part-cover-stone = حصى التغطية
report-part-binder = الرابط
report-part-water = الماء
report-part-other-material = مواد أخرى
report-part-wasted = متلف
report-part-count-difference = فرق الجرد
report-part-price-difference = فرق السعر
report-base-loose = مادة الأساس، سائبة
report-time-at-zone = الوقت في منطقة العمل

## Stock
report-stock = المخزون
report-nothing-held = لم يُحفظ شيء ولم يُنقل.
report-used-beyond-books = { $item }: استُعمل أكثر مما تعرفه الدفاتر؛ أجرِ جردًا وقيّد ما ورد.
report-item = الصنف
report-opening = أول المدة
report-bought = مشترى
report-into-repairs = في الإصلاحات
report-lost = مفقود
report-closing = آخر المدة
report-worth = القيمة
report-stock-spoil = ناتج الحفر
report-stock-signs = لافتات
report-stock-cones = أقماع
report-stock-other-devices = أدوات أخرى

## Risk that is left
report-left = الخطر الباقي
report-open-holes = حفر مفتوحة في النهاية
report-past-their-day = تجاوزت يومها
report-severity = الشدة
report-severity-counted = { $severity }: { $count }
report-none-judged = لم يُقيّم شيء
report-not-judged = غير مقيّمة
report-riskiest = الأشد خطرًا
report-hole = الحفرة
report-risk-points = نقاط الخطر
report-open-for = مفتوحة منذ
report-due = الموعد
report-risk-note = نقاط الخطر ترتّب الحفر ولا تقيس احتمالًا؛ وما من عدد نقاط يعني أن الحفرة آمنة. الحفر التي لم تُقس، أو التي ليست على طريق مُصان، لا تُقيّم: قيسوها.

## What lasts
report-lasts = ما يدوم
report-lives-known = أعمار إصلاحات معروفة
report-lives-failed = فشل منها
report-lasts-note = يبيّن السجل ما تزامن، لا سببه: فالأطقم تعمل على طرق مختلفة. والفرق الذي تصنعه الصدفة وحدها ليس فرقًا.
report-nothing-to-compare = لا يقول السجل بعد شيئًا تُقارن به الإصلاحات.
report-by = بحسب
report-group = المجموعة
report-failed = فشلت
report-half-outlast = نصفها يتجاوز
report-mean-life = متوسط العمر ضمن المدة
report-mean-within = { $mean } ± { $error } من { $days }
report-too-few = أقل من أن يُحكم به
report-not-reached = لم يُبلغ
report-still-whole-by = إصلاحات ما زالت سليمة، بحسب { $by }
report-still-whole = ما زالت سليمة
report-at-risk = تحت المراقبة
report-days-unit = أيام
report-curve-in-words = { $group }: أعمار { $lives }، حالات فشل { $failures }، نصفها يتجاوز { $median }
report-differ = المجموعات مختلفة: الصدفة وحدها تباعد بينها هكذا في { $cases } من كل 100 حالة.
report-pairs-differ = وتختلف مثنى مثنى: { $pairs }.
report-pair = { $first } و{ $second }
report-no-difference = لم يظهر فرق: الصدفة وحدها تباعد بين المجموعات هكذا في { $cases } من كل 100 حالة. وليس هذا دليلًا على تشابهها.
report-groups-too-few = هل تختلف المجموعات: حالات الفشل أقل من أن يُحكم بها.
report-less-than = أقل من { $number }
report-by-crew = الطاقم
report-by-material = نوع مادة الأساس
report-by-binder = الرابط
report-by-layers = عدد الطبقات
report-by-moisture = مادة الأساس في اليد
report-by-wetness = الماء في الحفرة
report-by-surface = السطح عند الختم
report-by-weather = الطقس عند الختم
report-by-temperature = حرارة الهواء
report-by-month = الشهر
report-by-season = فصل السنة
report-by-road = الطريق
report-by-road-class = فئة الطريق
report-by-traffic = حركة المرور
report-by-drainage = التصريف
report-by-rules = اتباع القواعد
report-group-not-known = غير معروف
report-group-dry-surface = سطح جاف
report-group-wet-surface = سطح مبلل
report-group-by-rules = وفق القواعد
report-group-not-by-rules = خلاف القواعد
report-group-falls-apart = يتفتت
report-group-keeps-shape = يحافظ على شكله
report-group-oozes = ينزّ
report-group-layers = { $count ->
    [one] طبقة واحدة
    [two] طبقتان
    [few] { $count } طبقات
   *[other] { $count } طبقة
}
report-group-traffic-under = أقل من { $most } في اليوم
report-group-traffic-between = من { $from } إلى { $to } في اليوم
report-group-traffic-from = { $least } في اليوم فأكثر
report-group-ditch-works = الخندق يعمل
report-group-ditch-blocked = الخندق مسدود
report-group-kerb-and-gully = رصيف وبالوعة
report-group-gully-blocked = البالوعة مسدودة
report-group-high-verge = جانب الطريق أعلى منه
report-group-no-drainage = لا تصريف
report-group-standing-water = ماء راكد بجانبه
report-group-weather-dry = طقس جاف
report-group-weather-damp = ندى أو ضباب أو رذاذ
report-group-weather-rain = مطر خلال يوم
report-group-weather-frost = صقيع
report-group-temperature-under = أقل من { $most }
report-group-temperature-between = من { $from } إلى { $to }
report-group-temperature-from = { $least } فأكثر
report-class-motorway = طريق سيار
report-class-trunk = طريق سريع
report-class-primary = رئيسي
report-class-secondary = ثانوي
report-class-tertiary = فرعي
report-class-unclassified = غير مصنّف
report-class-residential = شارع سكني
report-class-service = طريق خدمة
report-class-track = طريق ترابي

## Where patching nears its end
report-stop = حيث يقترب الترقيع من نهايته
report-stretches = مقاطع نُظر فيها
report-past-patching = تجاوزت الترقيع
report-repair-price = سعر الإصلاح الواحد
report-years-looked-at = سنوات نُظر فيها
report-engineer-decides = **القرار لمهندس الطرق.** المقاطع التي يفضل فيها التجديد الآن على مواصلة الترقيع، عشرة على الأكثر؛ وفي ما تجاوز الترقيع يكلّف التجديد الآن أقل في تسعة احتمالات من عشرة. الأمتار أو الأقدام على طول المقطع في ملف الطرق.
report-stop-caption = الكلفة خلال { $years } سنة بقيمة اليوم، بآلاف { $currency }: المتوسط، وبين قوسين مما لا يبلغه احتمال من عشرة إلى ما لا تتجاوزه تسعة. الأرخص: نسبة تلك الاحتمالات.
report-m-along = م على الطول
report-ft-along = قدم على الطول
report-holes-a-year = حفر في السنة
report-patched-on = مواصلة الترقيع
report-renewed-now = التجديد الآن
report-renewed-by = نوع التجديد
report-even-in-year = تعادل في السنة
report-renewing-cheaper = التجديد أرخص
report-later = بعدها
report-renewal-reseal = إعادة ختم السطح
report-renewal-new-base = أساس جديد وختم
report-stop-note = يعرف النموذج الحفر والأسعار وأعمار الإصلاحات. ولا يعرف ما تحت السطح، ولا الماء من الجوانب، ولا المرور القادم، ولا أعمال الآخرين، ولا ما يكلّفه إغلاق الطريق مستعمليه. أسعار التجديد وأعماره من إعداد الجهة. وتصميم الرصف من شأن مهندس مرخّص.
report-no-roads = لا طرق معروفة، فلا يمكن قول شيء عن مقاطعها.
report-too-short = في السجل أقل من ربع سنة: أقل من أن يُعرف كم حفرة تأتي في السنة.
report-no-cost = ليس لأي إصلاح في الأشهر الاثني عشر الأخيرة كلفة في الدفاتر، فلا سعر لمواصلة الترقيع.
report-no-hole = لا حفرة جديدة في السجل على طريق مُصان.
report-no-law = لا تذكر القواعد قانونًا لأعمار الإصلاحات يمكن العمل به.
report-unworkable = لا يمكن الحساب بإعدادات القواعد.

## How the figures were worked out
report-workings = كيف حُسبت الأرقام، وما لا تستطيع قوله
report-figure = الرقم
report-how = كيف
report-where-from = المصدر
report-source-record = السجل
report-source-books = الدفاتر
report-source-handbook = الدليل، { $page }
report-source-books-and-handbook = الدفاتر؛ الدليل، { $page }
report-source-distance = الدليل، { $page }؛ المسافة: { $source }
report-source-arrival = الدليل، { $page }؛ الحفر التي هي فشل إصلاح ليست جديدة
report-figure-repairs = الإصلاحات والمساحة
report-how-repairs = إصلاحات مرّ عليها السير أول مرة في الشهر (خُتمت، حيث لم يقل أحد إنها فُتحت)؛ والمساحة كما قُطعت، بقدر ما ذكرتها الأطقم
report-figure-cost = الكلفة
report-how-cost = الوقت المقيّد بأسعار المنطقة، والمواد بمتوسط سعر ما كان في المخزون عند استعمالها؛ وما قُيّد على جولة يُقسم على إصلاحاتها
report-figure-stock = المخزون
report-how-stock = أول المدة + مشترى − في الإصلاحات − مفقود = آخر المدة، في المستودعات والشاحنات ومناطق العمل؛ والمفقود ما رُمي ناقصًا ما وجده الجرد، وقد يحوي فرق سعر
report-figure-planned = المخطط والفعلي
report-how-planned = مجاميع إصلاحات الشهر التي ذُكر لها الاثنان؛ والمخطط آخر خطة لكل منها
report-figure-risk = نقاط الخطر والشدة والموعد
report-how-risk = كما قيست الحفرة آخر مرة، مقيّمةً في آخر يوم من التقرير
report-figure-lives = أعمار الإصلاحات
report-how-lives = من الفتح حتى قال أحد أو وجد أنه فشل، أو شوهدت حفرة جديدة ضمن { $distance } على الجانب نفسه؛ وإلا فسليم حتى { $day }
report-figure-lasts = ما يدوم
report-how-lasts = منحنيات حدّ الجداء، نطاقات { $confidence }، اختبار رتب اللوغاريتم؛ وأقل من { $failures } حالات فشل أقل من أن يُحكم بها
report-figure-stop-price = نهاية الترقيع: سعر الإصلاح الواحد
report-how-stop-price = كل كلفة الأشهر الاثني عشر الأخيرة، { $cost }، على إصلاحات عددها { $repairs } = { $price }
report-figure-stop-holes = نهاية الترقيع: حفر جديدة في السنة
report-how-stop-holes = حفر جديدة عددها { $holes } في { $years } سنة على الطرق المُصانة، { $length } كم·سنة: { $rate } لكل كيلومتر وسنة؛ { $drawn }
report-how-stop-anew = ؛ وحيث نال طريق سطحًا جديدًا تُعدّ الحفر والزمن من ذلك اليوم
report-not-drawn = لا تختلف المقاطع أكثر مما تصنعه الصدفة، فلكل منها معدل المنطقة
report-drawn-by = يُقرَّب عدد كل مقطع إليه كأن { $holes } حفر متوقعة شوهدت في غيره
report-figure-stop-lives = نهاية الترقيع: أعمار الإصلاحات
report-how-law-of-lives = قانون وايبل ملائم لأعمار عددها { $lives } وحالات فشل عددها { $failures }: المقياس { $scale } سنة، الشكل { $shape }
report-how-law-of-rules = حالات الفشل أقل من أن يُحكم بها؛ قانون وايبل من القواعد: المقياس { $scale } سنة، الشكل { $shape } ({ $source })
report-figure-stop-costs = نهاية الترقيع: الكلفة وسنة التعادل
report-how-stop-costs = عدد الاحتمالات { $futures } على { $years } سنة بفائدة { $interest }؛ تزيد الحفر الجديدة { $growth } في السنة؛ { $renewals }
report-renewal-in-words = { $renewal } { $price } لكل م²، يبقى { $left } من الحفر الجديدة، يُستهلك في { $years } سنة ({ $source })
report-limit-not-told = ما لم يقله أحد ليس في السجل ولا في هذا التقرير. وما يُقال لاحقًا يغيّر تقرير شهر مضى.
report-limit-sizes = مقاسات الحفر هي آخر ما قيل حتى إعداد التقرير، لا مقاسات آخر يوم في الشهر.
report-limit-not-judged = { $count ->
    [one] حفرة مفتوحة واحدة لم تُقيّم.
    [two] حفرتان مفتوحتان لم تُقيّما.
    [few] { $count } حفر مفتوحة لم تُقيّم.
   *[other] { $count } حفرة مفتوحة لم تُقيّم.
}
report-limit-no-place = لا إصلاح على طريق معروف: فلم يمكن أن يُقال عن حفرة جديدة إنها فشل إصلاح.
report-limit-resurfaced-nowhere = { $count ->
    [one] أُبلغ عن سطح جديد ليس على أي طريق معروف: تُعدّ الإصلاحات تحته مُراقَبة بعد.
    [two] أُبلغ عن سطحين جديدين ليسا على أي طريق معروف: تُعدّ الإصلاحات تحتهما مُراقَبة بعد.
    [few] أُبلغ عن { $count } سطوح جديدة ليست على أي طريق معروف: تُعدّ الإصلاحات تحتها مُراقَبة بعد.
   *[other] أُبلغ عن { $count } سطحًا جديدًا ليست على أي طريق معروف: تُعدّ الإصلاحات تحتها مُراقَبة بعد.
}
report-limit-findings = { $count ->
    [one] في الدفاتر ملاحظة واحدة على أحد أن ينظر فيها؛ وقد تغيّر المخزون والكلفة.
    [two] في الدفاتر ملاحظتان على أحد أن ينظر فيهما؛ وقد تغيّران المخزون والكلفة.
    [few] في الدفاتر { $count } ملاحظات على أحد أن ينظر فيها؛ وقد تغيّر المخزون والكلفة.
   *[other] في الدفاتر { $count } ملاحظة على أحد أن ينظر فيها؛ وقد تغيّر المخزون والكلفة.
}
report-budget-caption = ما يتركه مال التجديد إذا ذهب أولًا إلى حيث يدرأ أكثر الحفر؛ بآلاف { $currency }
report-budget-across = مال التجديد بالآلاف
report-budget-up = حفر آتية خلال { $years } سنة، ومنها إصلاحات تفشل
