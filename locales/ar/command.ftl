# ما يقوله الأمر

command-days = { $count ->
    [one] يوم واحد من { $day }
    [two] يومان من { $day }
    [few] { $count } أيام من { $day }
   *[other] { $count } يومًا من { $day }
}
command-holes = { $count ->
    [zero] لا حفر
    [one] حفرة واحدة
    [two] حفرتان
    [few] { $count } حفر
   *[other] { $count } حفرة
}
command-zones = { $count ->
    [zero] لا مناطق
    [one] منطقة واحدة
    [two] منطقتان
    [few] { $count } مناطق
   *[other] { $count } منطقة
}
command-rows = صفوف القائمة
command-holes-in-round = حفر الجولة
command-holes-in-rounds = حفر الجولات
command-holes-later = حفر مؤجلة
command-more-reports = بلاغات أخرى عنها
command-rows-refused = صفوف مرفوضة
command-mended-before = أُصلحت من قبل
command-back = العودة إلى المستودع
command-job-pack = ملف العمل
command-work-plan = خطة العمل
command-cost = الكلفة
command-changed = تغيّر
command-in-round = { $holes }، مناطق العمل { $zones }، الرحلات { $trips }
command-back-at = { $median }، وفي تسعة أيام من عشرة حتى { $late }
command-round = { $holes } في { $zones }، العودة { $back }
command-round-loads = { $holes } في { $zones }، العودة { $back }، كفاية الحمولة { $chance }
command-costs = { $total } { $currency }: الخطر حتى الإصلاح { $waiting }، الخطر الباقي { $left }، الفرق { $time }، القيادة { $driving }
command-not-worked-out = مع كثرة المواقع لا يُحسب ما يجلبه فريق أو ساعة أو متر مكعب إضافي
command-one-more-crew = فريق إضافي مثل { $crew }
command-one-more-hour = ساعة إضافية لكل وردية
command-one-more-cubic-metre = متر مكعب إضافي لكل شاحنة
command-saves = { $what }: يوفّر { $saves } { $currency }، المناطق { $zones }
command-added = { $holes } أضيفت إلى { $to }
command-moved = { $holes } من { $from } إلى { $to }
command-dropped = { $holes } لم تعد في جولة { $from }
command-looks = فحوص في الطريق
command-looks-made = { $made }، متبقٍّ { $left }
command-learnt = من السجل
