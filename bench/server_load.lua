-- Batches of ten events for wrk: five holes reported and measured, with numbers of version 7 that no other batch has.
-- TOKEN, NAME and DEVICE in the environment say who sends them.
local token, name, device = os.getenv("TOKEN"), os.getenv("NAME"), os.getenv("DEVICE")
local threads = 0
local all = {}

function setup(thread)
   thread:set("number", threads)
   threads = threads + 1
   table.insert(all, thread)
end

function init()
   count, answered, refused = 0, 0, 0
   math.randomseed(os.time() * 8 + number)
   salt = math.random(0, 0xffff)
   headers = { ["Content-Type"] = "application/json", ["Authorization"] = "Bearer " .. token }
end

-- Time of the second, then what counts up, then the thread and a salt: version 7 as RFC 9562, section 5.7 has it.
local function uuid()
   count = count + 1
   local millis = os.time() * 1000 + math.floor(count / 0x1000) % 1000
   local high = math.floor(millis / 0x10000)
   return string.format("%08x-%04x-7%03x-8%03x-%04x%08x", high, millis % 0x10000, count % 0x1000, number, salt, count)
end

function request()
   local time = os.date("!%Y-%m-%dT%H:%M:%SZ")
   local events = {}
   local head = string.format('"schema":1,"actor":"%s","device":"%s","device_time":"%s"', name, device, time)
   for _ = 1, 5 do
      local hole = uuid()
      local place = string.format('{"lon":%.6f,"lat":%.6f}', -28.5 + math.random() * 0.5, 47 + math.random() * 0.5)
      events[#events + 1] = string.format(
         '{"id":"%s",%s,"happened":{"kind":"hole_reported","hole":"%s","position":%s,"size":{"length_mm":600,"width_mm":400},"note":"by the gate","source":"patrol"}}',
         uuid(), head, hole, place)
      events[#events + 1] = string.format(
         '{"id":"%s",%s,"happened":{"kind":"hole_measured","hole":"%s","size":{"length_mm":620,"width_mm":390,"depth_mm":85,"wetness":"dry"}}}',
         uuid(), head, hole)
   end
   return wrk.format("POST", "/api/events", headers, '{"events":[' .. table.concat(events, ",") .. "]}")
end

function response(status, _, body)
   answered = answered + 1
   if status ~= 200 or body:find("refused", 1, true) then
      refused = refused + 1
      if refused == 1 then io.stderr:write("refused: ", status, " ", body:sub(1, 300), "\n") end
   end
end

function done(summary, latency)
   local wrong = summary.errors.connect + summary.errors.read + summary.errors.write + summary.errors.timeout
   local refusals = 0
   for _, thread in ipairs(all) do refusals = refusals + thread:get("refused") end
   io.write(string.format(
      "batches %d, a second %.0f, median %.1f ms, p99 %.1f ms, worst %.0f ms, errors %d, refused %d\n",
      summary.requests, summary.requests / summary.duration * 1e6, latency:percentile(50) / 1000,
      latency:percentile(99) / 1000, latency.max / 1000, wrong, refusals))
end
