using FuelHistory.Contracts;

namespace FuelHistory.Tests.Client;

/// <summary>One vehicle, one complaint and what belongs to them, invented for these tests.</summary>
internal static class Samples
{
    public const string VehicleId = "veh-1", ComplaintId = "com-1", ModelId = "test-model";

    private static readonly DateTimeOffset At = new(2026, 6, 1, 10, 0, 0, TimeSpan.FromHours(2));

    public static Vehicle Vehicle { get; } = new(Head(VehicleId), "Blue hatch", "1981", ModelId, "km", "1.6", null, false, null, false, 1);

    public static FaultModelHead ModelHead { get; } = new(ModelId, "Test system", "1");

    public static Settings Settings { get; } = new("EUR", 60m, null, new Dictionary<string, string> { ["pressure"] = "bar", ["temperature"] = "°C", ["distance"] = "km" }, "en");

    public static Instrument Gauge { get; } = new(Head("ins-1"), "Red case gauge", "pressure", "bar", 10, 1.6, 0.1, null, null, null, null);

    public static Complaint Complaint { get; } = new(Head(ComplaintId), VehicleId, "Restarts badly when hot", "2026-05", "constant", false, At, null, null);

    public static FaultModelView Model { get; } = new(ModelId, "Test system", "1", "for tests",
        [
            new("pump", "Fuel pump", false, [new("weak", "delivers too little")], ["fitted"]),
            new("accumulator", "Fuel accumulator", false, [new("ruptured", "diaphragm ruptured")], ["fitted"]),
            new("regulator-seal", "Pressure regulator seal", false, [new("leaking", "leaks at rest")], ["fitted"]),
            new("gauge", "Gauge", true, [new("off", "reads wrong")], []),
        ],
        [
            Event("hot-restart", "Restarts badly when hot", "After a short stop with a hot car: does it crank for long?"),
            Event("long-crank-cold", "Cranks long when cold", "After a night: does it crank for long?"),
            Event("cuts-out", "Cuts out", "Does it stop while driving?") with
            {
                When = [new("hot", "hot"), new("bumps", "over bumps")],
                Then = [],
                Cells = [new("cuts-out-hot", "hot", null, "Cuts out hot", "Does it stop when hot?"), new("cuts-out-bumps", "bumps", null, "Cuts out over bumps", "Does it stop over bumps?")],
            },
        ],
        [SystemPressure, Residual, ReturnShut, Tips, Control],
        [new("pressure-gauge", "Pressure gauge"), new("clamp", "Hose clamp")],
        [new("ran-dry", "Ran out of fuel")],
        [new("m1", "memory", "from memory")],
        [new("relay-swap", "Another relay in its place", "another", "pump", 5, 0, [], "none", [], ["Put another relay in.", "What does the complaint then do?"], "Practice")],
        [new("ignition", "Ignition"), new("fuel-supply", "Fuel supply")],
        [new("suddenly", "suddenly"), new("slowly", "slowly")]);

    private static EventView Event(string id, string title, string ask) => new(id, title, ask, "starting", [], [], [new(id, null, null, title, ask)]);

    public static CheckView SystemPressure => Check("system-pressure", "System pressure", "measurement", "pressure", "bar", []);

    public static CheckView Residual => Check("residual", "Residual pressure", "leak-down", "pressure", "bar", [new("hold", "held"), new("slow", "fell slowly"), new("fast", "fell fast")]);

    public static FaultModelStudy Study { get; } = new(ModelId, "Test system", "1", "for tests",
        [
            new("pump", "weak", "Fuel pump: delivers too little", "memory", "Judgement", [new("delivery", "Delivery")], [], [new("no-power", "No power", 0.6)], [new("return-shut", "Return shut", 0.4)]),
            new("accumulator", "ruptured", "Fuel accumulator: diaphragm ruptured", "common-practice", "Practice", [], [new("pump.weak", "Fuel pump: delivers too little")], [], []),
        ],
        [new("delivery", "Delivery", [new("pump.weak", "Fuel pump: delivers too little")])],
        [new(new("pump.weak", "Fuel pump: delivers too little"), new("accumulator.ruptured", "Fuel accumulator: diaphragm ruptured"), 0.2, new("return-shut", "Return shut"), "Both are one unit.")]);

    public static CheckView ReturnShut => Check("return-shut", "Return shut", "leak-down", "pressure", "bar", [new("hold", "held"), new("slow", "fell slowly"), new("fast", "fell fast")]);

    public static CheckView Tips => Check("tips", "Injector tips", "outcomes", null, null, [new("dry", "all dry"), new("one", "one drips")]);

    public static CheckView Control => Check("control-pressure", "Control pressure cold", "measurement", "pressure", "bar", []) with { Covariate = new("ambient", "Air temperature", "temperature", "°C") };

    public static Assessment Assessment { get; } = new(ComplaintId, "2026-06-01", null, ModelId, "1", "answered", true, [], [],
        [new("event", "hot-restart", "Restarts badly when hot", ["fin-0"], 1, 0)],
        [
            Ranked("regulator-seal", "Pressure regulator seal", 0.41, 0.38, "The residual pressure of 0.8 bar speaks for it."),
            Ranked("accumulator", "Fuel accumulator", 0.27, 0.22, "It is old."),
            Ranked("pump", "Fuel pump", 0.1, 0.003, "It is new, but a new one can be bad."),
        ],
        0, 0.12, 0.04, 0.03, 0.01, [], null, [], [], 1, "EUR");

    public static Advice Advice { get; } = new(ComplaintId, "2026-06-01", null, ModelId, "1", "answered", true,
        [
            new("return-shut", "Return shut", 12, 10, [], ["pressure-gauge", "clamp"], true, "high", ["Fuel under pressure: no sparks."], 12, 45, 3.7, 0.6, true,
                [new("hold", "held", 0.6, [new("regulator-seal", "Pressure regulator seal", 0.8)]), new("fast", "fell fast", 0.4, [new("accumulator", "Fuel accumulator", 0.5)])]),
        ],
        new RepairPlan([new("regulator-seal", "Pressure regulator seal", "fitted", 60, 20, 80, 1, 0.38, 0.38)], 210, 120, 700, "Check first: it saves 45 EUR."), "EUR");

    public static RecordView Record { get; } = new(Vehicle,
    [
        new("complaint", ComplaintId, 1, "2026-06-01", "Complaint: restarts badly when hot", "since 2026-05", ComplaintId, null),
        new("finding", "fin-1", 1, "2026-06-01", "Residual pressure: 0.8 bar after 10 min", null, ComplaintId, null),
        new("finding", "fin-9", 1, "2024-06-01", "Leads: none loose", null, "com-0", null),
        new("work", "wrk-1", 1, "2025-10", "Fuel pump fitted, new (invoice)", "Cost 120 EUR", null, null),
        new("work", "wrk-0", 2, "2023", "Injectors fitted (told)", null, null, "wrong car"),
    ]);

    public static Finding Finding { get; } = new(Head("fin-1"), VehicleId, ComplaintId, At, null, "return-shut", null, null, "hold", true, null, null, null, null, null, "unknown", null, "Return shut: held");

    /// <summary>What comes of trying that the accumulator is to blame.</summary>
    public static WhatIfAnswer WhatIf { get; } = new(
        Assessment with { Ranking = [Assessment.Ranking[1] with { Explains = 0.7, Bad = 0.75 }, Assessment.Ranking[0] with { Explains = 0.05, Bad = 0.06 }] },
        Advice,
        [new("accumulator", "Fuel accumulator", 0.22, 0.7, 0.27, 0.75), new("regulator-seal", "Pressure regulator seal", 0.38, 0.05, 0.41, 0.06)],
        "answered", new Leader("regulator-seal", "Pressure regulator seal", 0.38), 0, 210, 165, ["Return shut: fell fast"], []);

    /// <summary>A server that knows all of the above.</summary>
    public static StubServer Server() => new StubServer()
        .Get("/livez", new Health("live", new Dictionary<string, string>()))
        .Get("/v1/vehicles", new[] { Vehicle })
        .Get($"/v1/vehicles/{VehicleId}", Vehicle)
        .Get($"/v1/vehicles/{VehicleId}/record", Record)
        .Get($"/v1/vehicles/{VehicleId}/complaints", new[] { Complaint })
        .Get($"/v1/vehicles/{VehicleId}/limits", Array.Empty<Limit>())
        .Get("/v1/fault-models", new[] { ModelHead })
        .Get("/v1/refused-fault-models", new[] { new RefusedFaultModel("mine", "/data/mine/model.json", ["/data/mine/model.json, line 4: it is wrong"]) })
        .Get($"/v1/fault-models/{ModelId}", Model)
        .Get($"/v1/fault-models/{ModelId}/study", Study)
        .Get($"/v1/fault-models/{ModelId}/checks/return-shut", ReturnShut)
        .Get("/v1/settings", Settings)
        .Get("/v1/instruments", new[] { Gauge })
        .Get($"/v1/complaints/{ComplaintId}", Complaint)
        .Get($"/v1/complaints/{ComplaintId}/findings", new[] { Finding })
        .Get($"/v1/complaints/{ComplaintId}/assessment", Assessment)
        .Get($"/v1/complaints/{ComplaintId}/advice", Advice)
        .Answer("POST", $"/v1/complaints/{ComplaintId}/assessment/what-if", 200, StubServer.Json(WhatIf));

    public static Problem Invalid(params Fault[] faults) => new(Problems.TypePrefix + Problems.Invalid, "Not stored", 422, $"{faults.Length} things are wrong", Problems.Invalid, "trace-1", faults);

    public static EntryHead Head(string id) => new(id, 1, At);

    private static CheckView Check(string id, string title, string kind, string? quantity, string? unit, IReadOnlyList<NamedThing> outcomes) =>
        new(id, title, kind, quantity, unit, outcomes, 12, "gauge-on", 10, ["pressure-gauge"], "high", ["Fuel under pressure: no sparks, eyes covered."], ["Connect the gauge.", "Run the pump.", "Read the gauge."], "4.7..5.5 bar", "from memory", null);

    private static RankedComponent Ranked(string id, string title, double bad, double explains, string why) =>
        new(id, title, bad, explains, explains, 0.1, [new("x", "leaks at rest", bad)], [new("finding", "fin-1", "Residual pressure", 3.2, why)], [new("finding", "fin-1", "Residual pressure", bad)], [], "Original part, 45 years old.", [explains]);
}
