using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Entries, components, causes and chances in the words of the record, the fault model and the settings.</summary>
internal sealed class AnswerTexts
{
    private const string OtherCause = "elsewhere";

    private readonly Dictionary<string, string> texts;

    public AnswerTexts(Gathered gathered)
    {
        Gathered = gathered;
        texts = gathered.Findings.Select(f => (f.Entry.Id, f.Text))
            .Concat(gathered.Work.Select(w => (w.Entry.Id, $"{Sentences.Of(w, Model)}, {Sentences.When(w.Date)}")))
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
        "drove" => "The car still drove",
        "complaint" => "What was found under an earlier complaint",
        _ when id == "onset" => $"How the trouble came about: {Sentences.Low(CommonWords.Title(CommonWords.Onsets, Gathered.Complaint.Onset))}",
        _ => kind,
    };

    public string Chance(double p) => PlainFigures.Chance(p, Gathered.Figures);

    public static bool IsOtherCause(string component) => component == OtherCause;

    public string Component(string id) => IsOtherCause(id) ? Model.Elsewhere.Title : Sentences.Component(Model, id);

    /// <summary>A fault by component.mode.</summary>
    public string Cause(string of) => of.Split('.') is [var component, var mode] ? $"{Component(component)}: {Sentences.Mode(Model, component, mode)}" : of;
}
