using System.Text.Json.Serialization;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Host.Shipped;

/// <summary>What the build writes once the linter has let all pass: of which files, by which program, and what the models call themselves.</summary>
/// <param name="Program">Another linter might refuse what this one let pass.</param>
/// <param name="Files">The hash of <see cref="ShippedFiles"/>.</param>
internal sealed record BuildStamp(string Program, string Files, IReadOnlyList<StampedModel> Models)
{
    public const string FileName = "stamp.json";

    /// <summary>Reader, composer and linter are all in the core.</summary>
    public static string ThisProgram { get; } = typeof(CompiledModel).Module.ModuleVersionId.ToString("N");
}

/// <param name="File">The model.json, relative to the folder of the models.</param>
/// <param name="Sha256">Of the model's whole text, pieces put in.</param>
/// <param name="PackedSha256">Of that text as it lies packed beside the stamp.</param>
internal sealed record StampedModel(string File, string Id, string Title, string Revision, string? BaseId, string Sha256, string PackedSha256);

[JsonSourceGenerationOptions(WriteIndented = true, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(BuildStamp))]
internal sealed partial class StampJson : JsonSerializerContext;
