using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks;

/// <summary>The fault model, and the search that the figures of speed are taken on.</summary>
internal static class Bench
{
    private static readonly DateOnly Day = new(2025, 5, 1);

    public static CompiledModel Model()
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "fault-models");
        var pieces = Directory.GetFiles(Path.Combine(folder, "shared"), "*.json").ToDictionary(path => Path.GetFileNameWithoutExtension(path), Read);
        return new CompiledModel(FaultModelComposer.Compose(Read(Path.Combine(folder, "continuous-mechanical", "model.json")), pieces).Read());
    }

    private static ModelText Read(string path) => new(path, File.ReadAllText(path));

    public static AssessmentInput Input() => new(
        new CarRecord
        {
            FirstUse = new DateOnly(1981, 7, 1),
            Odometer = [new OdometerFix(Day, 180_000)],
            Work = [
                new WorkFact("pump", new DateOnly(2024, 10, 15), WorkAction.Fitted, ["pump"], Known.Invoice, PartQuality.New, At(0)),
                new WorkFact("injectors", new DateOnly(2022, 5, 15), WorkAction.Fitted, ["injectors"], Known.Told, PartQuality.Unknown, At(0))],
            Instruments = [new InstrumentFact("gauge", 10, 1.6, 0.1, null, null, new DateOnly(2025, 1, 1))],
            Findings = [.. Findings().Select((f, i) => f with { Id = $"f{i}", At = At(i), RecordedAt = At(i) })],
        },
        new ComplaintFact("c", new DateOnly(2025, 4, 1), false, false),
        Day);

    private static IEnumerable<Observation> Findings()
    {
        string[] present = ["hard-start-hot", "hard-start-overnight", "hot-catches-and-dies"];
        string[] absent = ["hard-start-cold", "flooded-start", "starts-then-stalls", "no-start", "rough-idle-cold", "rough-idle-warm", "stalls-at-idle", "hunting", "no-power", "rich-smoke", "pump-noisy", "fuel-smell"];
        (string Check, string Outcome)[] looked = [("accumulator-vent", "no"), ("wet-hoses", "dry"), ("fuse-look", "sound"), ("filter-arrow", "no"), ("pump-listen", "hum")];
        (string Check, double Value)[] read = [("system-pressure", 4.9), ("control-warm", 3.6), ("pump-voltage", 12.1)];
        (string Check, double Minutes, double Bar)[] watched = [("leak-down-whole", 10, 0.8), ("leak-down-gauge", 5, 4.8)];
        var blank = new Observation { Id = "", ComplaintId = "c", At = default, Day = Day, RecordedAt = default, Session = "day" };
        return [
            .. present.Select(s => blank with { Symptom = s, Outcome = "present" }),
            .. absent.Select(s => blank with { Symptom = s, Outcome = "absent" }),
            .. looked.Select(c => blank with { Check = c.Check, Outcome = c.Outcome }),
            .. read.Select(c => blank with { Check = c.Check, Value = c.Value, Instrument = c.Check == "pump-voltage" ? null : "gauge" }),
            .. watched.Select(c => blank with { Check = c.Check, Points = [new LeakPoint(c.Minutes, c.Bar)], Instrument = "gauge" })];
    }

    private static DateTimeOffset At(int minute) => new DateTimeOffset(2025, 5, 1, 8, 0, 0, TimeSpan.Zero).AddMinutes(minute);
}
