using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Entries, components and causes in the words of the record and the fault model.</summary>
internal sealed class AnswerTexts
{
    private const string OtherCause = "elsewhere";

    private readonly Dictionary<string, string> texts;

    public AnswerTexts(Gathered gathered)
    {
        Gathered = gathered;
        texts = gathered.Findings.Select(f => (f.Entry.Id, f.Text))
            .Concat(gathered.Work.Select(w => (w.Entry.Id, $"{Sentences.Of(w, Model)}, {w.Date}")))
            .Concat(gathered.LayUps.Select(l => (l.Entry.Id, Sentences.Of(l))))
            .Concat(gathered.Incidents.Select(i => (i.Entry.Id, Sentences.Of(i, Model))))
            .ToDictionary();
    }

    public Gathered Gathered { get; }

    public FaultModel Model => Gathered.Car.Model;

    public string Entry(string id) => texts.GetValueOrDefault(id, id);

    public string Entry(string kind, string? id) => id is not null && texts.TryGetValue(id, out var known) ? known : kind switch
    {
        "ran-well" => "It ran well before the complaint began",
        "complaint" => "What was found under an earlier complaint",
        _ => kind,
    };

    public static bool IsOtherCause(string component) => component == OtherCause;

    public string Component(string id) => IsOtherCause(id) ? Model.Elsewhere.Title : Sentences.Component(Model, id);

    /// <summary>A fault by component.mode.</summary>
    public string Cause(string of) => of.Split('.') is [var component, var mode]
        ? $"{Component(component)}: {Model.Components.FirstOrDefault(c => c.Id == component)?.Modes.FirstOrDefault(m => m.Id == mode)?.Title ?? mode}"
        : of;
}
