# الرسوم: مخطط منطقة العمل، مخطط القصّة ومقطعها، الخرائط

drawing-north = ش
drawing-hole = حفرة
drawing-cut = قصّة
drawing-traffic-along = حركة المرور على طول الطريق
drawing-along = على طول الطريق
drawing-along-chainage = على طول الطريق، بتزايد المسافة
drawing-new-seal = حافة الطبقة السطحية الجديدة
drawing-new-seal-over = حافة الطبقة السطحية الجديدة، زيادة { $overlap }
drawing-edge-of-seal = حافة الطبقة السطحية
drawing-centre-line = خط المنتصف
drawing-long-side-along = الضلع الطويل على طول الطريق
drawing-long-side-across = الضلع الطويل متعامد مع الطريق
drawing-long-side-left = الضلع الطويل مائل { $angle } درجة إلى اليسار
drawing-long-side-right = الضلع الطويل مائل { $angle } درجة إلى اليمين
drawing-chainage-0 = المسافة 0
drawing-trip = الرحلة { $trip }
drawing-not-today = ليس اليوم
drawing-section = مقطع، العرض ليس بمقياس
drawing-layer = طبقة { $layer }
drawing-loose = سائبة { $thickness }
drawing-seal = رابط وحصى التغطية، تحديب
drawing-seal-crown = رابط وحصى التغطية، تحديب { $crown }
drawing-overlap = تراكب من كل جهة
drawing-overlap-by = تراكب { $overlap } من كل جهة
drawing-pattern = من الزوايا؛ بعيدًا عن الحواف
drawing-pattern-last = الأخيرة: { $pattern }
drawing-part-advance-warning = إنذار مسبق
drawing-part-taper = تدرّج
drawing-part-buffer = مسافة أمان
drawing-part-work-space = مساحة العمل
drawing-part-downstream-taper = تدرّج الخروج
drawing-sign = لافتة
drawing-cone = مخروط
drawing-flagger = حامل علم
drawing-shield-vehicle = مركبة حماية
drawing-on-road = على { $road }
drawing-into-road = { $distance } داخله
drawing-moved-by = نُقلت { $distance }
drawing-work-zone = منطقة عمل
drawing-work-zone-on = منطقة عمل على { $road }
drawing-nothing-open = لا يبقى شيء مفتوحًا
drawing-open = مفتوح { $width }
drawing-open-impassable = مفتوح { $width }: لا تمر المركبات
drawing-moved = نُقل من موضع القاعدة
drawing-closed = مغلق بجانب العمل
drawing-broken-length = الطول غير مرسوم كاملًا
drawing-scale-whole = بمقياس على الطول، لا على العرض
drawing-scale-core = من أول مخروط إلى آخره بمقياس على الطول، والباقي لا
drawing-scale-none = ليس بمقياس: المعوّل على المسافات
drawing-to-place = إلى { $place }
drawing-signs-counted = { $count ->
    [one] لافتة واحدة
    [two] لافتتان
    [few] { $count } لافتات
   *[other] { $count } لافتة
}
drawing-flaggers-counted = { $count ->
    [one] حامل علم واحد
    [two] حاملا علم
    [few] { $count } حاملي أعلام
   *[other] { $count } حامل علم
}
drawing-shield-vehicles-counted = { $count ->
    [one] مركبة حماية واحدة
    [two] مركبتا حماية
    [few] { $count } مركبات حماية
   *[other] { $count } مركبة حماية
}
drawing-no-devices = لا شيء قائم على الطريق
drawing-description = { $layout }. مخطط مقترح: { $devices }. طول مساحة العمل { $length }؛ ويبقى بجانبها { $width } مفتوحًا. اتجاه السير في حارة العمل من اليسار إلى اليمين. ولكل شيء رقمه بترتيب النصب.
