using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>One model.json with the pieces that it may include: usable, or the reasons why not, each with file and line.</summary>
internal sealed record FaultModelFile(CompiledModel? Model, string? Id, IReadOnlyList<string> Reasons)
{
    public static FaultModelFile Read(ModelText text, IReadOnlyDictionary<string, ModelText> pieces)
    {
        string? id = null;
        try
        {
            var composed = FaultModelComposer.Compose(text, pieces);
            id = composed.Id;
            var model = composed.Read();
            var refusals = FaultModelLinter.Refusals(model);
            return refusals.Count == 0
                ? new FaultModelFile(new CompiledModel(model), model.Id, [])
                : new FaultModelFile(null, id, [.. refusals.Select(r => $"{composed.PlaceOf(r.Path)}, {r.Path}: {r.Message} ({r.Rule})")]);
        }
        catch (FaultModelException e)
        {
            return new FaultModelFile(null, id, [e.Message]);
        }
    }
}

/// <summary>A vehicle's fault model is not there or was refused at the start; the message says which and why.</summary>
public sealed class FaultModelUnusableException(string message) : Exception(message);
